import { expect, test } from 'vitest';
import { timeToFinish, totalsOf } from '../../../app/core/plan/totals.ts';
import { lane, on, part, pause, planOf, set, timedSwim } from '../../support/coach/hand-session.ts';

test('distance by lane and part, swims by time not counted, the whole of untimed sets counted', () => {
  const lanes = [lane(1), lane(2)];
  const plan = planOf(
    [
      part(
        'Warm-up',
        1,
        timedSwim(2, 300),
        set(3, [4, 0], 50, { lanes: 2, timing: on(60, 0, 2) }),
        pause('talk', 4, 30),
      ),
      part('Empty', 5),
      part('Main set', 6, set(7, [2, 3], [62.5, 50], {})),
    ],
    { lanes },
  );
  const totals = totalsOf(plan);
  expect(
    totals.parts.map(({ name, partIndex, first, last, distances }) => [name, partIndex, first, last, distances]),
  ).toEqual([
    ['Warm-up', 0, 0, 1, [2000, 0]],
    ['Main set', 2, 2, 2, [1250, 1500]],
  ]);
  expect(totals.distances).toEqual([3250, 1500]);
});

test('a part runs from its first start to its last end, the session to the end of the last', () => {
  const totals = totalsOf(
    planOf([part('A', 1, timedSwim(2, 300), pause('talk', 3, 30)), part('B', 4, timedSwim(5, 60))]),
  );
  expect(totals.parts.map(({ start, end }) => [start / 1000, end / 1000])).toEqual([
    [0, 330],
    [390, 450],
  ]);
  expect(totals.duration).toBe(450_000);
});

test('how far the plan is past the finish: 0 within it, null without a start or a finish', () => {
  const over = (startsAt: number | null, finishBy: number | null): number | null =>
    totalsOf(planOf([timedSwim(1, 600)], { startsAt, finishBy })).over;
  expect(over(600, 610)).toBe(0);
  expect(over(600, 609)).toBe(60_000);
  expect(over(23 * 60 + 55, 4)).toBe(60_000);
  expect(over(null, 609)).toBeNull();
  expect(over(600, null)).toBeNull();
  expect(timeToFinish(1439, 0)).toBe(60_000);
});
