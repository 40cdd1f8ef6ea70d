/*
 * Intervals from a pace per 100, against published worked examples and rounding by arithmetic.
 */

import { expect, test } from 'vitest';
import type { Lane } from '../../app/core/session/session.ts';
import { base, lane, planOf, restOf, set } from '../support/coach/hand-session.ts';

function interval(metres: number, given: Partial<Lane>, rest?: number): number {
  const timing = rest === undefined ? base() : restOf(rest);
  const { reps } = planOf([set(1, 1, metres, { timing })], { lanes: [lane(1, given)] }).stretches[0]!.lanes[0]!;
  return reps[0]!.interval / 1000;
}

// Source: durt.org/swim/cruise.html: interval = cruise per 100 x distance / 100, "when not divisible by 5,
// always round up to the next highest 5 second pace"; its four worked examples.
test.each([
  ['1:40', 100, 200, 200],
  ['1:30', 90, 200, 180],
  ['1:45', 105, 300, 315],
  ['1:30', 90, 50, 45],
])('a base of %s (%i s) for %i is %i s', (_, pace, metres, expected) => {
  expect(interval(metres, { base: pace * 1000 })).toBe(expected);
});

// By arithmetic, up5(x) = 5 x ceil(x / 5); exact multiples must not move through a float.
test.each([
  [98, 100, 100],
  [74, 100, 75],
  [95, 100, 95],
  [87, 50, 45],
  [87, 75, 70],
  [100, 50, 50],
  [105, 300, 315],
  [130, 50, 65],
])('base %i s for %i is rounded up to %i s', (pace, metres, expected) => {
  expect(interval(metres, { base: pace * 1000 })).toBe(expected);
});

test('no base from 0:20 to 10:00 in tenths moves off an exact multiple of 5 s', () => {
  for (let tenths = 200; tenths <= 6000; tenths++) {
    for (const metres of [25, 50, 75, 100, 150, 200, 400]) {
      // In whole units of 1/1000 s: base (tenths of s) x metres / 100.
      const exact = tenths * metres;
      const expected = Math.floor((exact + 4999) / 5000) * 5;
      if (interval(metres, { base: tenths * 100 }) !== expected) throw new Error(`${tenths / 10} s for ${metres}`);
    }
  }
});

// Source: cruise interval in Maglischo, Swimming Fastest (sites.google.com/site/mantricoaching;
// Newton, docslib 1395386): 10 x 100 swum in 16:10 with 10 s of rest after nine, 16:20 for ten: 98 s each, "round up".
test('980 s for ten hundreds with 10 s of rest gives a cruise interval of 1:40', () => {
  expect(interval(100, { base: 98_000 })).toBe(100);
  // The same from the swims themselves: 88 s of swimming (base 98 s less 10 s) and 10 s of rest.
  expect(interval(100, { base: 98_000 }, 10)).toBe(100);
});
