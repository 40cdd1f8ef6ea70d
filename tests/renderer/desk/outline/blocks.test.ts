/*
 * Long lists in blocks.
 */

import { expect, test } from 'vitest';
import { inBlocks } from '../../../../renderer/desk/outline/blocks.tsx';

test('a session as coaches write them is one block, with every row drawn', () => {
  expect(inBlocks(Array.from({ length: 60 }, (_, row) => row))).toHaveLength(1);
});

test('thousands of entries come in blocks of about a screen, in order and none lost', () => {
  const entries = Array.from({ length: 17_000 }, (_, row) => row);
  const blocks = inBlocks(entries);
  expect(blocks.flat()).toEqual(entries);
  expect(Math.max(...blocks.map(({ length }) => length))).toBe(20);
});

test('entries of many rows fill a block sooner', () => {
  expect(inBlocks([1, 2, 3, 4], () => 16).map(({ length }) => length)).toEqual([2, 2]);
});
