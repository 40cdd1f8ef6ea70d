import { expect, test } from 'vitest';
import { isWholeLengths, roundedLengths } from '../../app/core/lengths.ts';

test('whole lengths within half a percent of their number, at least one', () => {
  expect(isWholeLengths(250, 2500)).toBe(true);
  expect(isWholeLengths(125, 2500)).toBe(false);
  expect(isWholeLengths(1000, 3333)).toBe(true);
  expect(isWholeLengths(1005, 2500)).toBe(true);
  expect(isWholeLengths(1006, 2500)).toBe(false);
  expect(isWholeLengths(50, 10_000)).toBe(false);
});

test('distances rounded to whole lengths, a half up', () => {
  expect([250, 375, 374, 125, 124].map((distance) => roundedLengths(distance, 2500))).toEqual([1, 2, 1, 1, 0]);
  expect(roundedLengths(1000, 3333)).toBe(3);
});
