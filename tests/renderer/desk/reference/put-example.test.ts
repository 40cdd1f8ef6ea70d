/*
 * Where a kept part or set goes in a text.
 */

import { expect, test } from 'vitest';
import { placeInParts } from '../../../../renderer/desk/reference/put-example.ts';

const TEXT = 'Harbour squad\npool 25 m\nlane 1 base 1:30\n\nWarm-up\n200 easy';

test.each([
  ['at the cursor in a part', 5, 5],
  ['at the cursor on the blank line below the settings', 4, 4],
  ['at the end where the cursor is among the settings, which end at the first part', 1, 6],
  ['at the end from the last setting too', 3, 6],
])('[library] %s', (_, cursor, line) => {
  expect(placeInParts(TEXT, cursor)).toBe(line);
});

test('[library] in a text of settings alone it goes below them, in an empty one on its line', () => {
  expect([placeInParts('pool 25 m\nlane 1', 1), placeInParts('', 1)]).toEqual([2, 1]);
});
