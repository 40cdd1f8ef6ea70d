/* Training load, against the published vectors (shared check values 13). */

import { expect, test } from 'vitest';
import { sessionLoad, weekLoad } from '../../../app/core/record/load.ts';

test('[Foster 2001] effort 6 for 75 minutes is 450, rounded to a whole', () => {
  expect(sessionLoad(6, 75 * 60_000)).toBe(450);
  expect(sessionLoad(7, 58 * 60_000 + 50_000)).toBe(412);
  expect(sessionLoad(0, 75 * 60_000)).toBe(0);
});

test('[Foster 1998] monotony and strain of a week by the standard deviation of a sample, n - 1', () => {
  const { total, monotony, strain } = weekLoad([450, 0, 520, 300, 610, 400, 0]);
  expect(total).toBe(2280);
  expect(monotony).toBeCloseTo(1.344, 4);
  expect(strain).toBeCloseTo(3064.41, 2);
});

test('a week in which every day was the same has no monotony, because it would have no bounds', () => {
  expect(weekLoad([0, 0, 0, 0, 0, 0, 0])).toEqual({ total: 0, monotony: null, strain: null });
  expect(weekLoad([300, 300, 300, 300, 300, 300, 300])).toEqual({ total: 2100, monotony: null, strain: null });
});
