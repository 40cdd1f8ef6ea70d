import { describe, expect, test } from 'vitest';
import { laneLength, retime } from '../../../app/core/plan/retime.ts';
import { alignTo, planDuration, plannedTimes, stretchLength } from '../../../app/core/plan/schedule.ts';
import type { Session } from '../../../app/core/session/session.ts';
import { lane, on, part, pause, planOf, set, timedSwim } from '../../support/coach/hand-session.ts';

const swim = (line: number, seconds = 62): ReturnType<typeof set> => set(line, 1, 50, { timing: on(seconds) });

describe('length of a stretch', () => {
  test('that of the longest lane with its tail', () => {
    const lanes = [lane(1, { swimmers: 5 }), lane(2, { swimmers: 1 })];
    const plan = planOf([set(1, 1, 100, { lanes: 2, timing: on([100, 119]) })], { lanes });
    expect(stretchLength(plan.stretches[0]!, lanes)).toBe(120_000);
    expect(stretchLength(plan.stretches[0]!, [lane(1, { swimmers: 4 }), lanes[1]!])).toBe(119_000);
    expect(stretchLength(plan.stretches[0]!, [null, lanes[1]!])).toBe(119_000);
    expect(stretchLength(plan.stretches[0]!, [null, null])).toBe(0);
  });

  test('a lane without a rep has no tail', () => {
    const lanes = [lane(1), lane(2, { swimmers: 20, gap: 60_000 })];
    const plan = planOf([set(1, [1, 0], 100, { lanes: 2, timing: on(100, 0, 2) })], { lanes });
    expect(stretchLength(plan.stretches[0]!, lanes)).toBe(100_000);
  });

  test('a talk or break lasts its own time, whatever the lanes', () => {
    const plan = planOf([pause('talk', 1, 90), swim(2)]);
    expect(stretchLength(plan.stretches[0]!, [lane(1, { swimmers: 9 })])).toBe(90_000);
  });
});

describe('planned times', () => {
  const times = (given: Partial<Session> = {}): readonly unknown[] =>
    plannedTimes(
      planOf(
        [part('A', 1, swim(2), pause('break', 3, 31), swim(4), pause('talk', 5, 30)), part('B', 6, swim(7))],
        given,
      ),
    ).map(({ start, duration, waits }) => [start / 1000, duration / 1000, waits]);

  test('a swim starts on a multiple of "start on", a talk or break at the end before', () => {
    expect(times()).toEqual([
      [0, 62, 'call'],
      [62, 31, 'auto'],
      [95, 62, 'auto'],
      [157, 30, 'auto'],
      [250, 62, 'call'],
    ]);
  });

  test('a part starts after "between", aligned; after a talk it waits for the word even with between auto', () => {
    const auto = { between: { time: 45_000, auto: true }, startOn: 30_000 };
    expect(times(auto)).toEqual([
      [0, 62, 'call'],
      [62, 31, 'auto'],
      [120, 62, 'auto'],
      [182, 30, 'auto'],
      [270, 62, 'call'],
    ]);
  });

  test('with between auto a part begins by itself, not after an untimed set', () => {
    const parts = [part('A', 1, swim(2)), part('B', 3, set(4, 1, 50)), part('C', 5, swim(6))];
    const waits = plannedTimes(planOf(parts, { between: { time: 0, auto: true } })).map((time) => time.waits);
    expect(waits).toEqual(['call', 'auto', 'call']);
    const byHand = plannedTimes(planOf([part('A', 1, swim(2)), part('B', 3, swim(4), pause('break', 5, 30))]));
    expect(byHand.map((time) => time.waits)).toEqual(['call', 'call', 'auto']);
  });

  test('a talk that begins a part is aligned like any beginning of a part', () => {
    const plan = planOf([part('A', 1, swim(2)), part('B', 3, pause('talk', 4, 30), swim(5))]);
    expect(plannedTimes(plan).map(({ start }) => start / 1000)).toEqual([0, 125, 155]);
  });

  test('the duration is the end of the last stretch', () => {
    expect(planDuration(plannedTimes(planOf([timedSwim(1, 600)], { lanes: [lane(1, { swimmers: 3 })] })))).toBe(
      610_000,
    );
    expect(planDuration([])).toBe(0);
  });

  test('align is the least multiple not below', () => {
    expect([0, 1, 5000, 5001].map((time) => alignTo(5000, time))).toEqual([0, 5000, 5000, 10_000]);
  });
});

describe('retime', () => {
  test('offsets are worked out again from intervals and leftovers, the first at 0', () => {
    const { reps, length } = planOf([set(1, 4, 50, { timing: on(60) })]).stretches[0]!.lanes[0]!;
    const kept = [reps[1]!, { ...reps[2]!, interval: 55_000, leftover: 5000 }, reps[3]!];
    const again = retime(kept);
    expect(again.reps.map(({ offset }) => offset)).toEqual([0, 60_000, 120_000]);
    expect(again.length).toBe(180_000);
    expect(laneLength(kept)).toBe(180_000);
    expect(laneLength(reps)).toBe(length);
    expect(retime([])).toEqual({ reps: [], length: 0 });
  });
});
