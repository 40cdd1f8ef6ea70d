// @vitest-environment happy-dom
/*
 * What a set means, by F2 and by a button.
 */

import { EditorState } from '@codemirror/state';
import { EditorView } from '@codemirror/view';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { meaningText } from '../../../../../renderer/desk/editor/meaning/meaning-table.ts';
import { explainHere, setMeaning } from '../../../../../renderer/desk/editor/meaning/set-meaning.ts';
import type { LineMeaning } from '../../../../../renderer/desk/timetable/line-meaning.ts';

const NONE = { interval: '', target: '', leaves: '', takes: '' };
const MEANING: LineMeaning = {
  words: '8/0 x 75 free',
  note: 'As in the first of 3 rounds.',
  lanes: [
    { lane: 1, swims: '8 x 75', interval: '1:10', target: '', leaves: '0:00, 1:10, 2:20 to 8:10', takes: '9:20' },
    { lane: 2, swims: '', ...NONE },
  ],
};

let view: EditorView;
const onNothing = vi.fn();
const explain = vi.fn((line: number) => Promise.resolve(line === 2 ? MEANING : null));

beforeEach(() => {
  const parent = document.body.appendChild(document.createElement('div'));
  view = new EditorView({
    parent,
    state: EditorState.create({ doc: 'Set\n8/0 x 75', extensions: setMeaning(explain, onNothing) }),
  });
});
afterEach(() => view.destroy());

function press(key: string): void {
  view.contentDOM.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
}

const shown = (): HTMLTableElement | null => view.dom.querySelector('table');
const rows = (): readonly string[][] =>
  [...(shown()?.rows ?? [])].map(({ cells }) => [...cells].map(({ textContent }) => textContent));

test('[meaning] F2 shows it lane by lane for the line of the cursor, and hides it again, as Escape does', async () => {
  view.dispatch({ selection: { anchor: 6 } });
  press('F2');
  await vi.waitFor(() => expect(shown()).not.toBeNull());
  expect(rows()).toEqual([
    ['lane', 'swims', 'on', 'leaves at', 'takes'],
    ['1', '8 x 75', '1:10', '0:00, 1:10, 2:20 to 8:10', '9:20'],
    ['2', 'sits it out'],
  ]);
  press('F2');
  await vi.waitFor(() => expect(shown()).toBeNull());
  press('F2');
  await vi.waitFor(() => expect(shown()).not.toBeNull());
  press('Escape');
  expect(shown()).toBeNull();
});

test('[meaning] what is typed closes it, and so does another place', async () => {
  view.dispatch({ selection: { anchor: 6 } });
  await explainHere(view, explain);
  expect(shown()).not.toBeNull();
  view.dispatch({ selection: { anchor: 0 } });
  expect(shown()).toBeNull();
});

test('[meaning] where nobody swims there is nothing to show, and who asked is told', async () => {
  expect(await explainHere(view, explain)).toBe(false);
  press('F2');
  await vi.waitFor(() => expect(onNothing).toHaveBeenCalledOnce());
  expect(shown()).toBeNull();
});

test('[meaning] for who hears it, it is sentences', () => {
  expect(meaningText(MEANING)).toBe(
    '8/0 x 75 free. Lane 1: 8 x 75, on 1:10, leaves at 0:00, 1:10, 2:20 to 8:10, takes 9:20. Lane 2: sits it out. As in the first of 3 rounds.',
  );
});
