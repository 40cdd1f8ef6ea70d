/*
 * The words of a fault in its line.
 */

import { expect, test } from 'vitest';
import { wordsAt } from '../../../../../renderer/desk/editor/faults/fault-place.ts';

const cut = (line: string, column: number): string => {
  const { from, to } = wordsAt(line, column);
  return line.slice(from, to);
};

test('a fault is marked from its column to the end of the word there', () => {
  expect(cut('4 x 50 back @ 1.30', 15)).toBe('1.30');
  expect(cut('4 x 50 back @ 1.30, fast', 17)).toBe('30,');
  expect(cut('lane 3 css 136, 5 swimmers', 1)).toBe('lane');
});

test('a tab counts as 4 columns, and a column between words means the next word', () => {
  expect(cut('\t4 x 50 @ 1.30', 14)).toBe('1.30');
  expect(cut('talk  words', 5)).toBe('  words');
});

test('behind the end of a line, and where only blanks are left, nothing is cut out of it', () => {
  expect(wordsAt('talk', 5)).toEqual({ from: 4, to: 4 });
  expect(wordsAt('talk   ', 99)).toEqual({ from: 4, to: 4 });
  expect(wordsAt('', 1)).toEqual({ from: 0, to: 0 });
});
