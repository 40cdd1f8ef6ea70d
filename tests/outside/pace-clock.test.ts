/*
 * Where the sweep hand stands at each leave, against what swimmers are taught about the pace clock:
 * leave k of an interval of n seconds is at clock second (start + k x n) mod 60, 60 at the top.
 */

import { expect, test } from 'vitest';
import { holdTime, lane, on, planOf, set } from '../support/coach/hand-session.ts';

/** The seconds a sweep hand shows at each planned leave of the one set of a session, :00 as 60. */
function handAtLeaves(interval: number, count: number): readonly number[] {
  const { reps } = planOf([set(1, count, 50, { timing: on(interval) })]).stretches[0]!.lanes[0]!;
  return reps.map(({ offset }) => (offset / 1000) % 60 || 60);
}

// Sources: "Basics" of a Louisville swim coach's site (sites.google.com/site/wwwswimlouisvillecom: :30 two
// numbers opposite, :20/:40 thirds, :15/:45 fourths, :10/:50, :05/:55); lifestylingathleticperformance.com,
// October 2012 (":40 -> 60, 40, 20", ":45 -> 45, 30, 15, 60"). Rows not named there: the arithmetic above.
test.each([
  [30, [60, 30]],
  [90, [60, 30]],
  [35, [60, 35, 10, 45, 20, 55, 30, 5, 40, 15, 50, 25]],
  [95, [60, 35, 10, 45, 20, 55, 30, 5, 40, 15, 50, 25]],
  [40, [60, 40, 20]],
  [100, [60, 40, 20]],
  [45, [60, 45, 30, 15]],
  [105, [60, 45, 30, 15]],
  [50, [60, 50, 40, 30, 20, 10]],
  [110, [60, 50, 40, 30, 20, 10]],
  [55, [60, 55, 50, 45, 40, 35, 30, 25, 20, 15, 10, 5]],
  [115, [60, 55, 50, 45, 40, 35, 30, 25, 20, 15, 10, 5]],
  [60, [60]],
  [120, [60]],
  [65, [60, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55]],
  [70, [60, 10, 20, 30, 40, 50]],
  [75, [60, 15, 30, 45]],
  [80, [60, 20, 40]],
  [85, [60, 25, 50, 15, 40, 5, 30, 55, 20, 45, 10, 35]],
])('an interval of %i s sends off at %j, and round again', (interval, cycle) => {
  expect(handAtLeaves(interval, cycle.length * 2)).toEqual([...cycle, ...cycle]);
});

// Source: the same arithmetic, for swimmers 5 s apart on 1:35 (U.S. Masters Swimming, "How do I use the pace
// clock?", usms.org article 1929: "5 (or 10) seconds apart"). Every swimmer keeps the lane's interval.
test('swimmers 5 s apart on 1:35 leave at their own readings, each on the same interval', () => {
  const squad = lane(1, { swimmers: 4 });
  const { reps } = planOf([set(1, 4, 100, { timing: on(95) })], { lanes: [squad] }).stretches[0]!.lanes[0]!;
  const hands = [0, 1, 2, 3].map((place) => reps.map(({ offset }) => ((offset + place * squad.gap) / 1000) % 60 || 60));
  expect(hands).toEqual([
    [60, 35, 10, 45],
    [5, 40, 15, 50],
    [10, 45, 20, 55],
    [15, 50, 25, 60],
  ]);
});

// Source: Wallace, Slattery, Coutts 2009, J Strength Cond Res 23(1):33-38: "10 x 100 m on 1:40 min:s holding
// 1:05 min:s". By arithmetic: rest 35 s, 16:40 to the next send-off, the last swim ends at 9 x 100 + 65 = 965 s.
test('10 x 100 on 1:40 holding 1:05: rest, length of the set and end of the last swim', () => {
  const plan = planOf([set(1, 10, 100, { timing: on(100), hold: holdTime(65) })]);
  const { reps, length } = plan.stretches[0]!.lanes[0]!;
  expect(reps.map(({ interval, target }) => interval - target!)).toEqual(new Array(10).fill(35_000));
  expect(length).toBe(1_000_000);
  expect(reps[9]!.offset + reps[9]!.target!).toBe(965_000);
});
