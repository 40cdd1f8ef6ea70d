// @vitest-environment happy-dom
/*
 * The list that opens while a coach types: it never takes a key from who knows what to type.
 */

import { currentCompletions, completionStatus } from '@codemirror/autocomplete';
import { defaultKeymap } from '@codemirror/commands';
import { EditorState } from '@codemirror/state';
import { EditorView, keymap } from '@codemirror/view';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { completing } from '../../../../../renderer/desk/editor/completion/completing.ts';

const TEXT = 'Harbour\nlane 1 css 1:20\nMain set\n4 x 50 back and free by 25 @ 0:55\n';

let view: EditorView;

beforeEach(() => {
  vi.useFakeTimers();
  const parent = document.body.appendChild(document.createElement('div'));
  const extensions = [completing(), keymap.of(defaultKeymap)];
  view = new EditorView({ parent, state: EditorState.create({ doc: TEXT, extensions }) });
  view.dispatch({ selection: { anchor: TEXT.length } });
});
afterEach(() => {
  view.destroy();
  vi.useRealTimers();
});

function type(text: string): void {
  for (const letter of text) {
    const at = view.state.selection.main.head;
    view.dispatch({ changes: { from: at, insert: letter }, selection: { anchor: at + 1 }, userEvent: 'input.type' });
  }
}

/** Whether the editor took it. */
function press(key: string): boolean {
  const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
  view.contentDOM.dispatchEvent(event);
  return event.defaultPrevented;
}

const wait = (ms: number): Promise<unknown> => vi.advanceTimersByTimeAsync(ms);
const offered = (): readonly string[] => currentCompletions(view.state).map(({ label }) => label);
const lastLine = (): string => view.state.doc.line(view.state.doc.lines).text;

/** The list is open, and as old as a press must find it. */
async function opened(text: string): Promise<void> {
  type(text);
  await wait(600);
  expect(completionStatus(view.state)).toBe('active');
}

describe('[completion] the list', () => {
  test('does not open as long as letters follow each other, and opens in a pause', async () => {
    for (const letter of '6 x 50 ba') {
      type(letter);
      await wait(150);
    }
    expect(offered()).toEqual([]);
    await wait(300);
    expect(offered()).toEqual(['back and free by 25']);
  });

  test('leaves Enter a new line, until one was chosen with the arrows', async () => {
    await opened('6 x 50 @ ');
    press('Enter');
    expect([lastLine(), view.state.doc.lines]).toEqual(['', 6]);
    await opened('6 x 50 @ ');
    press('ArrowDown');
    press('ArrowDown');
    press('Enter');
    expect(lastLine()).toBe('6 x 50 @ base');
  });

  test('gives Tab its first, or the chosen one; without it Tab goes on to the next control', async () => {
    expect(press('Tab')).toBe(false);
    await opened('6 x 50 ba');
    expect(press('Tab')).toBe(true);
    expect(lastLine()).toBe('6 x 50 back and free by 25');
    expect(press('Tab')).toBe(false);
  });

  test('is closed by Escape, which is then the window’s again', async () => {
    await opened('6 x 50 @ ');
    expect(press('Escape')).toBe(true);
    expect(offered()).toEqual([]);
    expect(lastLine()).toBe('6 x 50 @ ');
  });

  test('goes along with what is typed into it, and closes where nothing is left', async () => {
    await opened('6 x 50 @ ');
    type('b');
    expect(offered()).toEqual(['base', 'base+10', 'base+5']);
    type('x');
    await wait(600);
    expect(offered()).toEqual([]);
  });

  test('does not open in the midst of a word', async () => {
    type('6 x 50 back');
    view.dispatch({ selection: { anchor: view.state.doc.length - 2 } });
    type('a');
    await wait(600);
    expect(offered()).toEqual([]);
  });
});
