import { describe, expect, test } from 'vitest';
import type { Rep, Stretch } from '../../../app/core/plan/plan.ts';
import {
  base,
  block,
  holdCss,
  holdTime,
  ladder,
  lane,
  on,
  part,
  pause,
  planOf,
  restOf,
  rounds,
  set,
  timedSwim,
} from '../../support/coach/hand-session.ts';
import { planOf as planOfText } from '../../support/run/deck.ts';

function offsets(stretch: Stretch | undefined, index = 0): readonly number[] {
  return (stretch?.lanes[index]?.reps ?? []).map(({ offset }) => offset / 1000);
}

function reps(stretch: Stretch | undefined, index = 0): readonly Rep[] {
  return stretch?.lanes[index]?.reps ?? [];
}

describe('stretches', () => {
  test('lanes come together at the start of each part', () => {
    const plan = planOf([
      part('Warm-up', 1, set(2, 2, 100, { timing: on(90) })),
      part('Main set', 3, set(4, 1, 100, { timing: on(100) })),
    ]);
    expect(plan.stretches.map(({ part, partIndex }) => [part, partIndex])).toEqual([
      ['Warm-up', 0],
      ['Main set', 1],
    ]);
    expect(offsets(plan.stretches[1])).toEqual([0]);
  });

  test('lanes come together before and after a talk and a break, each a stretch of its own', () => {
    const plan = planOf([
      set(1, 1, 50, { timing: on(60) }),
      pause('talk', 2, 90, 'turns'),
      pause('break', 3, 30),
      set(4, 1, 50, { timing: on(60) }),
    ]);
    expect(plan.stretches.map(({ kind, line, time, words }) => [kind, line, time, words])).toEqual([
      ['swim', 0, 0, ''],
      ['talk', 2, 90_000, 'turns'],
      ['break', 3, 30_000, ''],
      ['swim', 0, 0, ''],
    ]);
  });

  test('lanes come together after an untimed set, and not before it', () => {
    const plan = planOf([set(1, 2, 50, { timing: on(60) }), set(2, 1, 300), set(3, 1, 50, { timing: on(60) })]);
    expect(plan.stretches.map(({ untimed }) => untimed)).toEqual([true, false]);
    expect(offsets(plan.stretches[0])).toEqual([0, 60, 120]);
    expect(offsets(plan.stretches[1])).toEqual([0]);
  });

  test('parts without a swim make no stretch, but count', () => {
    const plan = planOf([part('Notices', 1), part('Swim', 2, set(3, 1, 50, { timing: on(60) }))]);
    expect(plan.stretches.map(({ part, partIndex }) => [part, partIndex])).toEqual([['Swim', 1]]);
  });

  test('every stretch of swimming has all lanes of the session, in lane order', () => {
    const lanes = [lane(1), lane(2), lane(7)];
    const plan = planOf([set(1, [2, 0, 1], 50, { lanes: 3, timing: on(60, 0, 3) })], { lanes });
    expect(plan.stretches[0]!.lanes.map(({ reps, length }) => [reps.length, length])).toEqual([
      [2, 120_000],
      [0, 0],
      [1, 60_000],
    ]);
  });
});

describe('rounds', () => {
  test('rounds are written out, innermost passing first, numbered from the outermost', () => {
    const plan = planOf([
      rounds(1, 2, rounds(2, 2, set(3, 1, 50, { timing: on(60) })), set(4, 1, 25, { timing: on(30) })),
    ]);
    const seen = reps(plan.stretches[0]).map(({ set, offset }) => [
      set.line,
      offset / 1000,
      set.rounds.map(({ line, round, of }) => `${line}:${round}/${of}`).join(' '),
    ]);
    expect(seen).toEqual([
      [3, 0, '1:1/2 2:1/2'],
      [3, 60, '1:1/2 2:2/2'],
      [4, 120, '1:1/2'],
      [3, 150, '1:2/2 2:1/2'],
      [3, 210, '1:2/2 2:2/2'],
      [4, 270, '1:2/2'],
    ]);
  });

  test('one passage is one set object for all lanes, another round another with a higher order', () => {
    const lanes = [lane(1), lane(2)];
    const plan = planOf([rounds(1, 2, set(2, 2, 50, { lanes: 2, timing: on(60, 0, 2) }))], { lanes });
    const [first, second] = plan.stretches[0]!.lanes;
    expect(first!.reps[0]!.set).toBe(first!.reps[1]!.set);
    expect(first!.reps[0]!.set).toBe(second!.reps[0]!.set);
    expect(first!.reps[2]!.set).not.toBe(first!.reps[0]!.set);
    expect(first!.reps[2]!.set.order).toBeGreaterThan(first!.reps[0]!.set.order);
  });

  test('a talk in rounds keeps its round', () => {
    const plan = planOf([rounds(1, 2, set(2, 1, 50, { timing: on(60) }), pause('talk', 3, 60))]);
    expect(plan.stretches.map(({ kind, rounds }) => [kind, rounds.map(({ round }) => round)])).toEqual([
      ['swim', []],
      ['talk', [1]],
      ['swim', []],
      ['talk', [2]],
    ]);
  });
});

describe('reps', () => {
  test('each lane walks with its own cursor', () => {
    const lanes = [lane(1), lane(2)];
    const plan = planOf(
      [set(1, [3, 2], 100, { lanes: 2, timing: on([90, 105]) }), set(2, 1, 50, { lanes: 2, timing: on(60, 0, 2) })],
      { lanes },
    );
    expect(offsets(plan.stretches[0], 0)).toEqual([0, 90, 180, 270]);
    expect(offsets(plan.stretches[0], 1)).toEqual([0, 105, 210]);
    expect(reps(plan.stretches[0]).map(({ rep, of }) => `${rep}/${of}`)).toEqual(['1/3', '2/3', '3/3', '1/1']);
  });

  test('a base of 1:40 for 50 is 0:50, never 0:55 through a float', () => {
    const plan = planOf([set(1, 1, 50, { timing: base() })], { lanes: [lane(1, { base: 100_000 })] });
    expect(reps(plan.stretches[0])[0]!.interval).toBe(50_000);
  });

  test('drop and add change the interval rep by rep', () => {
    const dropped = planOf([set(1, 3, 100, { timing: on(120, -5) })]);
    expect(reps(dropped.stretches[0]).map(({ interval }) => interval / 1000)).toEqual([120, 115, 110]);
    expect(offsets(dropped.stretches[0])).toEqual([0, 120, 235]);
    const added = planOf([set(1, 3, 100, { timing: on(90, 5) })]);
    expect(reps(added.stretches[0]).map(({ interval }) => interval / 1000)).toEqual([90, 95, 100]);
  });

  test('drop and add work through a ladder by base, on top of each distance', () => {
    const lanes = [lane(1, { base: 100_000 })];
    const timing = { ...base(), step: 5000 } as const;
    const plan = planOf([ladder(1, [100, 200, 100], { timing })], { lanes });
    expect(reps(plan.stretches[0]).map(({ interval }) => interval / 1000)).toEqual([100, 205, 110]);
  });

  test('a ladder is one rep of each distance', () => {
    const plan = planOf([ladder(1, [100, 200, 100], { timing: base() })], { lanes: [lane(1, { base: 93_000 })] });
    expect(reps(plan.stretches[0]).map(({ distance, interval, rep, of }) => [distance, interval, rep, of])).toEqual([
      [1000, 95_000, 1, 3],
      [2000, 190_000, 2, 3],
      [1000, 95_000, 3, 3],
    ]);
  });

  test('rest is added to the expected time and rounded up to the grid; such intervals are estimates', () => {
    const lanes = [lane(1, { css: 80_000 })];
    const [rep] = reps(planOf([set(1, 1, 75, { words: 'free', timing: restOf(15) })], { lanes }).stretches[0]);
    // 80 s x 1.05 x 0.75 = 63 s, and 15 s of rest: 78 s.
    expect([rep!.expected, rep!.interval, rep!.set.estimated, rep!.set.untimed]).toEqual([63_000, 80_000, true, false]);
  });

  test('hold css is scaled to the distance and rounded to a tenth, half up', () => {
    const lanes = [lane(1, { css: 80_300 })];
    const plan = planOf([set(1, 1, 50, { timing: on(60), hold: holdCss(0) })], { lanes });
    expect(reps(plan.stretches[0])[0]!.target).toBe(40_200);
  });

  test('a swim by time is one leave of exactly that time and no distance', () => {
    const [rep] = reps(planOf([timedSwim(1, 360, 'choice')]).stretches[0]);
    expect(rep).toMatchObject({ rep: 1, of: 1, distance: 0, interval: 360_000, leftover: 0, target: null });
    expect(rep!.set).toMatchObject({ kind: 'timed-swim', estimated: false, untimed: false });
  });
});

describe('untimed sets', () => {
  test('one leave for the whole set, its length the sum of the expected times rounded up once', () => {
    const lanes = [lane(1, { css: 81_000 })];
    const [rep] = reps(planOf([set(1, 4, 50, { words: 'choice' })], { lanes }).stretches[0]);
    // 4 x 42.525 s = 170.1 s.
    expect(rep).toMatchObject({ rep: 1, of: 1, distance: 2000, interval: 175_000 });
    expect(rep!.set).toMatchObject({ estimated: true, untimed: true });
  });

  test('the target is that of one rep', () => {
    const [rep] = reps(planOf([set(1, 4, 50, { hold: holdTime(45) })]).stretches[0]);
    expect([rep!.target, rep!.interval]).toEqual([45_000, 180_000]);
  });

  test('a ladder has no target of its own where those of its reps differ', () => {
    const lanes = [lane(1, { css: 80_000 })];
    const differing = planOf([ladder(1, [100, 200], { hold: holdCss() })], { lanes });
    expect(reps(differing.stretches[0])[0]!.target).toBeNull();
    const same = planOf([ladder(1, [100, 100], { hold: holdCss() })], { lanes });
    expect(reps(same.stretches[0])[0]!.target).toBe(80_000);
  });
});

describe('timed blocks', () => {
  test('as many reps as fit, and the line takes exactly its time', () => {
    const plan = planOf([block(1, 600, 100, on(95)), set(2, 1, 50, { timing: on(60) })]);
    expect(offsets(plan.stretches[0])).toEqual([0, 95, 190, 285, 380, 475, 600]);
    expect(reps(plan.stretches[0]).map(({ leftover }) => leftover / 1000)).toEqual([0, 0, 0, 0, 0, 30, 0]);
    expect(plan.stretches[0]!.lanes[0]!.length).toBe(660_000);
  });

  test('intervals that drop fit more reps, those that add fewer', () => {
    const dropping = planOf([block(1, 330, 100, on(120, -10))]);
    expect(reps(dropping.stretches[0]).map(({ interval }) => interval / 1000)).toEqual([120, 110, 100]);
    const adding = planOf([block(1, 330, 100, on(100, 20))]);
    expect(reps(adding.stretches[0]).map(({ interval }) => interval / 1000)).toEqual([100, 120]);
  });

  test('at most 500 reps', () => {
    expect(reps(planOf([block(1, 3600, 25, on(5))]).stretches[0])).toHaveLength(500);
  });
});

describe('lines for some lanes', () => {
  test('[lanes] on a line of its own over sets and rounds: the others have nothing of them', () => {
    const plan = planOfText('lane 1\nlane 2\nlane 2:\n  50 @ 1:00\n  2 rounds\n    25 @ 0:30\n5:00 easy');
    const [first] = plan.stretches;
    expect(plan.stretches).toHaveLength(1);
    expect([offsets(first, 0), offsets(first, 1)]).toEqual([[0], [0, 60, 90, 120]]);
    expect(reps(first, 1).map(({ set }) => set.rounds.map(({ round }) => round))).toEqual([[], [1], [2], []]);
  });
});

test.each(['5:00 easy', '5:00 of 50s @ 1:00', '50-100 @ 1:00', '4 x 50 @ 1:00', '100 easy', '2 x 2 x 50 @ 1:00'])(
  '[lanes] the others have nothing of `lane 2: %s`',
  (line) => {
    const [first] = planOfText(`lane 1\nlane 2\nlane 2: ${line}`).stretches;
    expect([offsets(first, 0).length, offsets(first, 1).length > 0]).toEqual([0, true]);
  },
);

describe('estimates', () => {
  test('[rest] a set is one where any of its reps goes by a rest, a rep where it does itself', () => {
    const estimated = (line: string) => {
      const all = reps(planOfText(line).stretches[0]);
      return [all[0]!.set.estimated, ...all.map((rep) => rep.estimated)];
    };
    expect(estimated('2 x 50 odds @ 1:00, evens rest 10')).toEqual([true, false, true]);
    expect(estimated('2 x 50 odds @ 1:00, evens @ 1:10')).toEqual([false, false, false]);
    expect(estimated('2 x 50 rest 10')).toEqual([true, true, true]);
    expect(estimated('2:00 of 50s rest 10')[0]).toBe(true);
    expect(estimated('2:00 of 50s @ 1:00')).toEqual([false, false, false]);
    expect(estimated('5:00 easy')).toEqual([false, false]);
  });
});
