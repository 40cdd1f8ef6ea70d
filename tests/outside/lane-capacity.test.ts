/*
 * How many swim round a lane, through the warning that a coach sees. Source of the two published
 * cases: marathonswimmers.org, August 2012: a 25 yd lane at 1:30 a 100, 10 s apart, holds 4 (the last
 * leaves 30 s after the lead, who is back at 45 s); a 50 m lane at 1:40, 10 s apart, holds 10 (90 s,
 * back at 100 s). Both equal floor(time for two lengths / gap), from which the other rows follow.
 */

import { expect, test } from 'vitest';
import { swimmersInCircle } from '../../app/core/pace/circle.ts';
import { warningsOf } from '../../app/core/plan/warnings/warnings.ts';
import { ratio } from '../../app/core/ratio.ts';
import { holdTime, lane, on, planOf, set } from '../support/coach/hand-session.ts';

interface Case {
  readonly length: number;
  readonly unit: 'm' | 'yd';
  readonly pace: number;
  readonly gap: number;
  readonly fit: number;
}

const CASES: readonly Case[] = [
  { length: 25, unit: 'yd', pace: 90, gap: 10, fit: 4 },
  { length: 50, unit: 'm', pace: 100, gap: 10, fit: 10 },
  { length: 25, unit: 'm', pace: 90, gap: 5, fit: 9 },
  { length: 25, unit: 'm', pace: 120, gap: 5, fit: 12 },
  { length: 25, unit: 'm', pace: 75, gap: 5, fit: 7 },
  { length: 50, unit: 'm', pace: 75, gap: 5, fit: 15 },
];

/** Whether a lane of so many is said to be too full, with the pace held or cruised at. */
function isFull({ length, unit, pace, gap }: Case, swimmers: number, held: boolean): boolean {
  const squad = lane(1, { swimmers, gap: gap * 1000, base: (pace + 10) * 1000 });
  const item = set(1, 1, 100, { timing: on(600), ...(held ? { hold: holdTime(pace) } : {}) });
  const plan = planOf([item], { pool: { length: length * 100, unit }, lanes: [squad] });
  return warningsOf(plan).some(({ code }) => code === 'lane-full');
}

test.each(CASES)('$length $unit, $pace s a 100, $gap s apart: $fit fit, one more does not', (given) => {
  for (const held of [true, false]) {
    expect(isFull(given, given.fit, held)).toBe(false);
    expect(isFull(given, given.fit + 1, held)).toBe(true);
  }
});

test.each(CASES)('$length $unit, $pace s a 100, $gap s apart: the table of lanes says $fit', (given) => {
  const { length, pace, gap, fit } = given;
  expect(swimmersInCircle(length * 100, ratio(pace * 1000), gap * 1000)).toBe(fit);
});
