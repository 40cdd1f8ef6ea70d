/* Touches: which rep each ends, and the watches of several people for one. */

import { expect, test } from 'vitest';
import { handTime } from '../../../../app/core/record/times/hand-time.ts';
import { isTooSoon, touched as touchedBy, withTouch } from '../../../../app/core/record/times/touch.ts';

const leave = (at: number, distance = 500, stretch = 0) => ({ at, stretch, rep: { distance } });

type Left = ReturnType<typeof leave>;

const touched = (leaves: readonly Left[], t: number, timed: readonly Left[] = []): Left | null =>
  touchedBy(leaves, t, 'm', (each) => timed.includes(each));

test('[times] a touch ends the rep that left last', () => {
  const leaves = [leave(10_000), leave(70_000)];
  expect(touched(leaves, 48_000)).toBe(leaves[0]);
  expect(touched(leaves, 107_800)).toBe(leaves[1]);
});

test('[times] one faster than 0:20 a 100 has just left: the touch ends the rep before it', () => {
  const leaves = [leave(10_000), leave(70_000)];
  expect(touched(leaves, 79_999, leaves)).toBe(leaves[0]);
  expect(touched(leaves, 80_000, leaves)).toBe(leaves[1]);
});

test('[times] one faster than 2.5 m/s ends the rep before, where that has no time yet; else its own', () => {
  const leaves = [leave(10_000, 250), leave(40_000, 250)];
  expect(touched(leaves, 48_500)).toBe(leaves[0]);
  expect(touched(leaves, 49_999)).toBe(leaves[0]);
  expect(touched(leaves, 50_000)).toBe(leaves[1]);
  expect(touched(leaves, 48_500, [leaves[0]!])).toBe(leaves[1]);
  // Whoever swam the set before is long back.
  const next = [leave(10_000, 250, 0), leave(400_000, 250, 1)];
  expect(touched(next, 408_500)).toBe(next[1]);
  expect(touched([leaves[1]!], 48_500)).toBe(leaves[1]);
});

test('[times] nobody swims faster than 2.5 m/s, in metres and in yards; a swim by time has no speed', () => {
  expect([isTooSoon(9999, 250, 'm'), isTooSoon(10_000, 250, 'm')]).toEqual([true, false]);
  expect([isTooSoon(9143, 250, 'yd'), isTooSoon(9144, 250, 'yd')]).toEqual([true, false]);
  expect(isTooSoon(1, 0, 'm')).toBe(false);
});

test('[times] a touch before anybody can be back ends nothing', () => {
  expect(touched([], 5000)).toBeNull();
  expect(touched([leave(10_000)], 12_000)).toBeNull();
  expect(touched([leave(10_000, 0)], 14_999)).toBeNull();
  expect(touched([leave(10_000, 0)], 15_000)).not.toBeNull();
});

test('[times] up to three watches come together, the same one sent twice counts once, and all can be taken back', () => {
  const touch = (watch: number | null) => ({ lane: 2, at: 10_000, watch });
  const other = { lane: 1, at: 10_000, watches: [40_000] };
  const times = [37_810, 37_810, 38_050, 37_900, 39_000].map(touch).reduce(withTouch, [other]);
  expect(times).toEqual([other, { lane: 2, at: 10_000, watches: [37_810, 38_050, 37_900] }]);
  // SW 11.3: of three that differ the one in the middle.
  expect(handTime(times[1]!.watches)).toBe(37_900);
  expect(withTouch(times, touch(null))).toEqual([other]);
});
