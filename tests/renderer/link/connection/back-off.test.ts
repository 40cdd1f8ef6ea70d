/* The pauses before the host is called again. */

import { expect, test } from 'vitest';
import { backOff } from '../../../../renderer/link/connection/back-off.ts';

test('[link] each pause is at most twice the one before, from a quarter of a second to the longest', () => {
  const most = [0, 1, 2, 3, 4, 5, 6].map((attempt) => backOff(attempt, 8000, 1));
  expect(most).toEqual([250, 500, 1000, 2000, 4000, 8000, 8000]);
  expect(backOff(100_000, Infinity, 1)).toBe(256_000);
});

test('[link] pauses are shorter by chance, down to none, so that screens do not call all at once', () => {
  expect([0, 0.5, 0.99].map((chance) => backOff(3, 8000, chance))).toEqual([0, 1000, 1980]);
});
