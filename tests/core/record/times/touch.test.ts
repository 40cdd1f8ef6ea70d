/* Touches: which rep each ends, and the watches of several people for one. */

import { expect, test } from 'vitest';
import { handTime } from '../../../../app/core/record/times/hand-time.ts';
import { touched, withTouch } from '../../../../app/core/record/times/touch.ts';

const leave = (at: number, distance = 500) => ({ at, rep: { distance } });

test('[times] a touch ends the rep that left last', () => {
  const leaves = [leave(10_000), leave(70_000)];
  expect(touched(leaves, 48_000)).toBe(leaves[0]);
  expect(touched(leaves, 107_800)).toBe(leaves[1]);
});

test('[times] one faster than 0:20 a 100 has just left: the touch ends the rep before it', () => {
  const leaves = [leave(10_000), leave(70_000)];
  expect(touched(leaves, 79_999)).toBe(leaves[0]);
  expect(touched(leaves, 80_000)).toBe(leaves[1]);
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
