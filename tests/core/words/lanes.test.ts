import { expect, test } from 'vitest';
import { lanesNamed, lanesOf, lanesOrAll } from '../../../app/core/words/lanes.ts';

const squad = (out: readonly number[] = []) => [1, 2, 3].map((number) => ({ number, in: !out.includes(number) }));

test('lanes by their numbers', () => {
  expect([[2], [1, 3], [1, 3, 5]].map(lanesNamed)).toEqual(['lane 2', 'lanes 1 and 3', 'lanes 1, 3 and 5']);
});

test('three in a row and more are a range', () => {
  expect(
    [
      [1, 2, 3, 4, 5, 6],
      [1, 2, 3, 5],
      [1, 2, 7, 8, 9, 10],
    ].map(lanesNamed),
  ).toEqual(['lanes 1–6', 'lanes 1–3 and 5', 'lanes 1, 2 and 7–10']);
});

test('a command that names no lane is for all', () => {
  expect([lanesOrAll([]), lanesOrAll([4])]).toEqual(['all lanes', 'lane 4']);
});

test('all that are in are all lanes, but one alone is its number', () => {
  expect(lanesOf([1, 2, 3], squad())).toBe('all lanes');
  expect(lanesOf([1, 2], squad())).toBe('lanes 1 and 2');
  expect(lanesOf([1, 3], squad([2]))).toBe('all lanes');
  expect(lanesOf([3], squad([1, 2]))).toBe('lane 3');
});
