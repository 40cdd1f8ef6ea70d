/* Training load, against the published vectors (shared check values 13). */

import { expect, test } from 'vitest';
import { loadByWeek, sessionLoad, weekLoad } from '../../../../app/core/record/history/load.ts';

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

test('sessions are put into weeks that begin on a Monday, those of one day together, over the ends of months and years', () => {
  const weeks = loadByWeek([
    { day: '2026-11-25', load: 520 },
    { day: '2026-11-23', load: 400 },
    { day: '2026-11-23', load: 50 },
    { day: '2026-11-26', load: 300 },
    { day: '2026-11-27', load: 610 },
    { day: '2026-11-28', load: 400 },
    { day: '2024-02-29', load: 100 },
    { day: '2027-01-03', load: 200 },
    { day: '2027-01-04', load: 300 },
  ]);
  expect(weeks.map(({ monday, total }) => [monday, total])).toEqual([
    ['2024-02-26', 100],
    ['2026-11-23', 2280],
    ['2026-12-28', 200],
    ['2027-01-04', 300],
  ]);
  expect(weeks[1]!.strain).toBeCloseTo(3064.41, 2);
});

test('every day of four hundred years is in the week of its Monday', () => {
  const day = (number: number): string => new Date(number * 86_400_000).toISOString().slice(0, 10);
  // 1970-01-05 was a Monday.
  for (let number = 4; number < 146_101; number += 11) {
    const monday = number - ((number - 4) % 7);
    expect(loadByWeek([{ day: day(number), load: 1 }])[0]!.monday).toBe(day(monday));
  }
});

test('a day that no calendar has is a mistake of the program', () => {
  expect(() => loadByWeek([{ day: '2026-02-29', load: 1 }])).toThrow('2026-02-29 is no day');
});
