// @vitest-environment happy-dom
/*
 * Lines put into a text: where they go, and that a part stands between empty lines.
 */

import { afterEach, beforeEach, expect, test } from 'vitest';
import { putBelow } from '../../../../renderer/desk/editor/put-below.ts';
import { createTextView, type TextView } from '../../../../renderer/desk/editor/text-view.ts';

let view: TextView;

beforeEach(() => {
  view = createTextView({
    ...{ parent: document.body.appendChild(document.createElement('div')), text: '', sheet: 0, kept: null },
    ...{ placeholder: undefined, extensions: [], accepts: () => true, begins: () => null },
    ...{ onChange: () => undefined, onUpdate: () => undefined },
  });
});
afterEach(() => view.destroy());

const PART = 'Kick ladder\n100 kick\n';

test.each<[text: string, line: number, lines: string, becomes: string]>([
  ['Warm-up\n100 easy', 2, PART, 'Warm-up\n100 easy\n\nKick ladder\n100 kick|'],
  ['Warm-up\n100 easy\n', 3, PART, 'Warm-up\n100 easy\n\nKick ladder\n100 kick|'],
  ['Warm-up\n100 easy\n\n', 4, PART, 'Warm-up\n100 easy\n\nKick ladder\n100 kick|'],
  ['Warm-up\n50\n\nMain\n50', 3, PART, 'Warm-up\n50\n\nKick ladder\n100 kick|\n\nMain\n50'],
  ['Warm-up\n50\nMain\n50', 2, PART, 'Warm-up\n50\n\nKick ladder\n100 kick|\n\nMain\n50'],
  ['', 1, PART, 'Kick ladder\n100 kick|'],
  ['Warm-up\n50\nMain\n50', 2, '4 x 50 easy', 'Warm-up\n50\n4 x 50 easy|\nMain\n50'],
  ['Warm-up\n50\n', 3, '4 x 50 easy', 'Warm-up\n50\n4 x 50 easy|'],
  ['50', 0, 'pool 50 m', '|pool 50 m\n50'],
])('[library] into %j below line %d', (text, line, lines, becomes) => {
  view.dispatch({ changes: { from: 0, insert: text } });
  const first = putBelow(view, line, lines);
  const now = view.state.doc.toString();
  const { head } = view.state.selection.main;
  expect(`${now.slice(0, head)}|${now.slice(head)}`).toBe(becomes);
  expect(view.state.doc.line(first).text).toBe(lines.split('\n')[0]);
});
