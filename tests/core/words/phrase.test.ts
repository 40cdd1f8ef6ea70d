import { expect, test } from 'vitest';
import { capital, commaed, count, listed, spaced, spanned } from '../../../app/core/words/phrase.ts';

test('one is one, and none and more are several', () => {
  expect([0, 1, 2].map((n) => count(n, 'rep'))).toEqual(['0 reps', '1 rep', '2 reps']);
  expect([count(1, 'match', 'matches'), count(2, 'match', 'matches')]).toEqual(['1 match', '2 matches']);
});

test('several in a row have one "and"', () => {
  expect([[], ['1'], ['1', '3'], ['1', '3', '5']].map(listed)).toEqual(['', '1', '1 and 3', '1, 3 and 5']);
});

test('what is numbered, from one to another', () => {
  expect([spanned('rep', 3, 3), spanned('rep', 3, 4), spanned('line', 3, 9)]).toEqual([
    'rep 3',
    'reps 3 and 4',
    'lines 3 to 9',
  ]);
});

test('what is empty leaves no space and no comma', () => {
  expect([spaced('4 x 50', ''), spaced('', 'easy'), spaced('a', 'b')]).toEqual(['4 x 50', 'easy', 'a b']);
  expect([commaed('', 'a', '', 'b'), commaed('')]).toEqual(['a, b', '']);
});

test('a sentence begins with a capital', () => {
  expect(['break 0:45', '3 reps', ''].map(capital)).toEqual(['Break 0:45', '3 reps', '']);
});
