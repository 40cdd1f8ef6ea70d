// @vitest-environment happy-dom
/*
 * The editor of a session's text.
 */

import { undo } from '@codemirror/commands';
import { act, cleanup, render, screen } from '@testing-library/react';
import { useRef, useState, type ReactElement } from 'react';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Fault } from '../../../../app/core/result.ts';
import { FAULTS_SHOWN } from '../../../../renderer/desk/editor/faults/fault-place.ts';
import { RESTS_AFTER } from '../../../../renderer/desk/editor/lines/line-in-hand.ts';
import { SessionEditor } from '../../../../renderer/desk/editor/session-editor.tsx';
import { putCursor, type TextView } from '../../../../renderer/desk/editor/text-view.ts';
import { editorOf, writeText, writtenText } from '../../../support/coach/write-window/written-text.ts';

interface Given {
  readonly first: string;
  readonly faults?: readonly Fault[];
  /** The text that the faults are of; left out, the first. */
  readonly read?: string;
  readonly locked?: number;
  accepts?(text: string): boolean;
}

const heard: string[] = [];
const unfinished: (number | null)[] = [];
let put: (text: string, part?: string) => void;
let view: TextView | null;

function Shown({ first, faults = [], read, locked = 0, accepts }: Given): ReactElement {
  const [text, setText] = useState(first);
  const [part, setPart] = useState<string | null>(null);
  const area = useRef<TextView>(null);
  put = (next, asPart) =>
    act(() => {
      setText(next);
      setPart(asPart ?? null);
    });
  const onChange = (next: string): void => {
    heard.push(next);
    setText(next);
  };
  return (
    <>
      <SessionEditor
        label="Session"
        text={text}
        part={part}
        faults={faults}
        read={read ?? first}
        faultsId="faults"
        locked={locked}
        area={area}
        {...(accepts ? { accepts } : {})}
        onUnfinished={(line) => unfinished.push(line)}
        onChange={onChange}
      />
      <button onClick={() => (view = area.current)}>take the editor</button>
    </>
  );
}

beforeEach(() => void (heard.length = 0));
afterEach(cleanup);

const underlined = (): (string | null)[] => [...document.querySelectorAll('u')].map(({ textContent }) => textContent);
const fault = (line: number, column: number): Fault => ({ line, column, message: `what is wrong in line ${line}` });

describe('[editor] what comes between the lines while somebody writes', () => {
  test.each([
    ['in sight', 60, [true]],
    ['below what is in sight', 90, [false]],
    ['above what is in sight', -10, [false]],
  ])('with the cursor %s scrolls to it or not', async (_, top, expected) => {
    const first = 'Set\n4 x 50 @ 1:00';
    const drawn = render(<Shown first={first} />);
    const editor = editorOf();
    editor.focus();
    vi.spyOn(editor, 'hasFocus', 'get').mockReturnValue(true);
    vi.spyOn(editor, 'coordsAtPos').mockReturnValue({ left: 0, right: 0, top, bottom: top + 20 });
    vi.spyOn(editor.scrollDOM, 'getBoundingClientRect').mockReturnValue(new DOMRect(0, 0, 300, 100));
    editor.scrollDOM.dispatchEvent(new Event('scroll'));
    await new Promise(requestAnimationFrame);
    const dispatched = vi.spyOn(editor, 'dispatch').mockImplementation(() => undefined);
    drawn.rerender(<Shown first={first} faults={[fault(1, 1)]} />);
    const specs = dispatched.mock.calls.map(([spec]) => spec as { readonly scrollIntoView?: boolean });
    expect(specs.flatMap(({ scrollIntoView }) => scrollIntoView ?? [])).toEqual(expected);
  });
});

describe('[editor] a text that was put there, drawn after another letter was typed', () => {
  test('does not take the letter back', () => {
    let now = 'one';
    const editor = (puts: number, text: string): ReactElement => (
      <SessionEditor
        label="Session"
        text={text}
        puts={puts}
        now={() => ({ text: now, sheet: 0 })}
        faults={[]}
        read={null}
        faultsId="faults"
        area={{ current: null }}
        onChange={(next) => (now = next)}
      />
    );
    const drawn = render(editor(0, 'one'));
    now = 'two';
    drawn.rerender(editor(1, 'two'));
    expect(writtenText()).toBe('two');
    writeText('two and a letter');
    drawn.rerender(editor(2, 'two'));
    expect(writtenText()).toBe('two and a letter');
  });
});

describe('[editor] the text', () => {
  test('is told as it is typed, and not where it was put there', () => {
    render(<Shown first="Set" />);
    writeText('Set\n4 x 50 @ 1:00');
    expect(heard).toEqual(['Set\n4 x 50 @ 1:00']);
    put('another');
    expect(writtenText()).toBe('another');
    expect(heard).toHaveLength(1);
  });

  test('that was replaced from outside comes back by undo', () => {
    render(<Shown first="Set\n4 x 50" />);
    put('another\nsession');
    act(() => void undo(editorOf()));
    expect(writtenText()).toBe('Set\\n4 x 50');
    expect(heard).toEqual(['Set\\n4 x 50']);
  });

  test('that was put there in parts of the same thing comes back in one step, and what is another thing in its own', () => {
    render(<Shown first="lane 1" />);
    for (const name of ['A', 'An', 'Ana']) put(`lane 1 ${name}`, 'names');
    for (const gap of ['1', '10']) put(`lane 1 Ana, gap ${gap}`, 'gap');
    const undone = (): string => {
      act(() => void undo(editorOf()));
      return writtenText();
    };
    expect([undone(), undone()]).toEqual(['lane 1 Ana', 'lane 1']);
  });

  test('typed here meanwhile is a step between two parts of the same thing', () => {
    render(<Shown first="lane 1" />);
    put('lane 1 A', 'names');
    writeText('lane 1 A\nSet');
    put('lane 1 An\nSet', 'names');
    act(() => void undo(editorOf()));
    expect(writtenText()).toBe('lane 1 A\nSet');
  });

  test('with other ends of lines stays what it is until somebody types', () => {
    render(<Shown first={'Set\r\n4 x 50'} />);
    expect(heard).toEqual([]);
    put('Set\r\n8 x 50');
    expect(writtenText()).toBe('Set\n8 x 50');
    expect(heard).toEqual([]);
  });

  test('has a name, and says whether it has faults and where they are told', () => {
    const shown = render(<Shown first="Set" />);
    const box = screen.getByRole('textbox', { name: 'Session' });
    expect([box.getAttribute('aria-invalid'), box.getAttribute('aria-describedby')]).toEqual(['false', null]);
    shown.rerender(<Shown first="Set" faults={[fault(1, 1)]} />);
    expect([box.getAttribute('aria-invalid'), box.getAttribute('aria-describedby')]).toEqual(['true', 'faults']);
  });
});

describe('[editor] faults', () => {
  test('are underlined where their words stand, at a line’s end by the room behind it, with what is wrong below', () => {
    render(<Shown first={'Set\n4 x 50 back @ 1.30\ntalk'} faults={[fault(2, 15), fault(3, 5)]} />);
    expect(underlined()).toEqual(['1.30', '\u00a0\u00a0']);
    screen.getByText('what is wrong in line 2');
  });

  test('in a line that the text no longer has are not marked', () => {
    render(<Shown first={'one\nab cd'} faults={[fault(2, 3), fault(3, 1)]} />);
    expect(underlined()).toEqual([' cd']);
  });

  test('are marked as far as one would read them', () => {
    const faults = Array.from({ length: 300 }, (_, index) => fault(index + 1, 1));
    render(<Shown first={'x\n'.repeat(300)} faults={faults} />);
    expect(underlined().length).toBeLessThanOrEqual(FAULTS_SHOWN);
  });

  test('go along with their line until the text has been read again', () => {
    render(<Shown first={'Set\n4 x 50 @ 1.30'} faults={[fault(2, 10)]} />);
    act(() => editorOf().dispatch({ changes: { from: 0, insert: 'pool 25 m\n' } }));
    expect(underlined()).toEqual(['1.30']);
  });

  test('of another text than the one that stands there are not marked', () => {
    const shown = (faults: readonly Fault[]): ReactElement => <Shown first={'Set\n4 x 50 @ 1.30'} faults={faults} />;
    const { rerender } = render(shown([]));
    act(() => editorOf().dispatch({ changes: { from: 0, insert: 'pool 25 m\n' } }));
    rerender(shown([fault(2, 10)]));
    expect(underlined()).toEqual([]);
  });
});

describe('[editor] the fault of the line that is being written', () => {
  const FIRST = 'Set\n4 x 50 @ 1.30\n4 x';
  const TYPED = `${FIRST} 75`;
  const FAULTS = [fault(2, 10), fault(3, 4)];

  beforeEach(() => {
    vi.useFakeTimers();
    unfinished.length = 0;
    const shown = (of: string, faults: readonly Fault[]): ReactElement => (
      <Shown first={FIRST} read={of} faults={faults} />
    );
    const { rerender } = render(shown(FIRST, []));
    act(() =>
      editorOf().dispatch({
        changes: { from: FIRST.length, insert: ' 75' },
        selection: { anchor: TYPED.length },
        userEvent: 'input.type',
      }),
    );
    rerender(shown(TYPED, FAULTS));
  });
  afterEach(() => void vi.useRealTimers());

  test('waits while one types, others do not, and comes once typing rests', () => {
    expect([underlined(), unfinished]).toEqual([['1.30'], [3]]);
    act(() => void vi.advanceTimersByTime(RESTS_AFTER - 1));
    expect(underlined()).toEqual(['1.30']);
    act(() => void vi.advanceTimersByTime(1));
    expect([underlined(), unfinished]).toEqual([
      ['1.30', ' 75'],
      [3, null],
    ]);
  });

  test('comes at once when the cursor leaves the line', () => {
    act(() => editorOf().dispatch({ selection: { anchor: TYPED.length - 2 } }));
    expect(underlined()).toEqual(['1.30']);
    act(() => editorOf().dispatch({ selection: { anchor: 0 } }));
    expect([underlined(), unfinished]).toEqual([
      ['1.30', ' 75'],
      [3, null],
    ]);
  });
});

describe('[mend] a fault that is surely meant one way', () => {
  const mend = (): void => {
    const key = { key: '.', ctrlKey: true, bubbles: true, cancelable: true };
    act(() => void editorOf().contentDOM.dispatchEvent(new KeyboardEvent('keydown', key)));
  };

  test('is mended at one key, which stands below its line, from the cursor’s line on; and undo takes it back', () => {
    const first = 'Set\n4 x 50 @ 1.30\n4 x 75 rest15';
    render(<Shown first={first} faults={[fault(2, 10), fault(3, 8)]} />);
    expect([...document.querySelectorAll('b')].map(({ textContent }) => textContent)).toEqual([
      'Mend: 1:30 (Ctrl+.)',
      'Mend: rest 15 (Ctrl+.)',
    ]);
    act(() => editorOf().dispatch({ selection: { anchor: first.length } }));
    mend();
    expect(writtenText()).toBe('Set\n4 x 50 @ 1.30\n4 x 75 rest 15');
    act(() => void undo(editorOf()));
    expect(writtenText()).toBe(first);
  });

  test('is mended by a press on what stands below its line, of that line alone', () => {
    render(<Shown first={'Set\n4 x 50 @ 1.30\n4 x 75 rest15'} faults={[fault(2, 10), fault(3, 8)]} />);
    act(() => document.querySelectorAll('b')[1]!.click());
    expect(writtenText()).toBe('Set\n4 x 50 @ 1.30\n4 x 75 rest 15');
  });

  test('and where none is sure the key does nothing', () => {
    render(<Shown first={'Set\n4 x 50 @ 130'} faults={[fault(2, 10)]} />);
    mend();
    expect(writtenText()).toBe('Set\n4 x 50 @ 130');
  });

  test('is gone once its words are written anew', () => {
    render(<Shown first={'Set\n4 x 50 @ 1.30'} faults={[fault(2, 10)]} />);
    act(() => editorOf().dispatch({ changes: { from: 13, to: 17, insert: '2:00' } }));
    mend();
    expect(writtenText()).toBe('Set\n4 x 50 @ 2:00');
  });
});

describe('[editor] what has begun', () => {
  const accepts = (text: string): boolean => text.startsWith('Set\n');

  test('is locked: nothing that is typed or undone changes it', () => {
    render(<Shown first={'Sets\n4 x 50'} locked={1} />);
    expect(document.querySelectorAll('[class*=isLocked]')).toHaveLength(1);
    cleanup();
    render(<Shown first={'Set\n4 x 50'} locked={1} accepts={accepts} />);
    writeText('Other\n4 x 50');
    expect([writtenText(), heard]).toEqual(['Set\n4 x 50', []]);
    writeText('Set\n8 x 50');
    expect(heard).toEqual(['Set\n8 x 50']);
    act(() => void undo(editorOf()));
    expect(writtenText()).toBe('Set\n4 x 50');
  });
});

test('[editor] while a run goes on a clicker’s keys leave the cursor where one types, and reach nobody', () => {
  render(<Shown first={'Set\n4 x 50\n4 x 75'} locked={1} />);
  act(() => editorOf().dispatch({ selection: { anchor: 5 } }));
  for (const key of ['PageDown', 'PageUp']) {
    const press = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
    act(() => void editorOf().contentDOM.dispatchEvent(press));
    expect([press.defaultPrevented, editorOf().state.selection.main.head]).toEqual([true, 5]);
  }
});

test('[editor] the pieces of a line are told apart as they are read', () => {
  render(<Shown first={'Harbour\nSet\n4 x 50 free @ 1:00 # warm'} />);
  const looks = (name: string): (string | null)[] =>
    [...document.querySelectorAll(`[class*=${name}]`)].map(({ textContent }) => textContent);
  expect([looks('heading'), looks('number'), looks('time'), looks('word'), looks('comment')]).toEqual([
    ['Harbour', 'Set'],
    ['4', '50'],
    ['1:00'],
    ['x', '@'],
    ['# warm'],
  ]);
});

test.each([
  { column: 14, chosen: '1.30' },
  { column: undefined, chosen: '\t4 x 50 @ 1.30 hold 40' },
])('[editor] the cursor goes to a line: the words at column $column are chosen, or all of it', ({ column, chosen }) => {
  render(<Shown first={'Set\n\t4 x 50 @ 1.30 hold 40'} />);
  act(() => screen.getByRole('button').click());
  act(() => putCursor(view, 2, column));
  const { from, to } = editorOf().state.selection.main;
  expect(editorOf().state.sliceDoc(from, to)).toBe(chosen);
});
