/*
 * The words of a fault in its line.
 */

import { expect, test } from 'vitest';
import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import { faultMarks, FAULTS_SHOWN, wordsAt } from '../../../../renderer/desk/editor/fault-place.ts';

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

test('the faults of a text are marked in their rows, one at a line’s end by the room behind it', () => {
  const text = 'lane 1\nSet\n4 x 50 back @ 1.30\ntalk';
  const opened = openPlan({ text, lanesText: null });
  const faults = opened.ok ? [] : opened.faults.faults;
  expect(faultMarks(text.split('\n'), faults)).toEqual([
    { row: 2, before: '4 x 50 back @ ', words: '1.30' },
    { row: 3, before: '', words: 'talk' },
  ]);
  expect(faultMarks(text.split('\n'), [{ line: 4, column: 5, message: 'a time is missing' }])).toEqual([
    { row: 3, before: 'talk', words: '\u00a0\u00a0' },
  ]);
});

test('a fault in a line that the text no longer has is not marked', () => {
  const faults = [
    { line: 2, column: 3, message: 'here' },
    { line: 3, column: 1, message: 'gone' },
  ];
  expect(faultMarks(['one', 'ab cd'], faults)).toEqual([{ row: 1, before: 'ab', words: ' cd' }]);
});

test('of very many faults the first are marked', () => {
  const faults = Array.from({ length: 5000 }, (_, index) => ({ line: index + 1, column: 1, message: 'no' }));
  expect(faultMarks('x\n'.repeat(5000).split('\n'), faults)).toHaveLength(FAULTS_SHOWN);
});
