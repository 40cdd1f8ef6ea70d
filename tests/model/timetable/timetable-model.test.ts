import { describe, expect, test } from 'vitest';
import { lane, part, pause, plainSession, rounds, set, untimed } from '../invent/plain-scenario.ts';
import type { PerLane, ScenarioItem, ScenarioSet } from '../scenario.ts';
import { modelTimetable } from './timetable-model.ts';

interface Leaf {
  readonly line: number;
  readonly atMs: number;
  readonly intervalMs: number;
  readonly targetMs: number | null;
  readonly rep: number;
  readonly of: number;
}

function leavesOf(timetable: ReturnType<typeof modelTimetable>, laneIndex = 0): readonly Leaf[] {
  return (timetable.lanes[laneIndex] as { leaves: Leaf[] }).leaves;
}

function line(about: Partial<ScenarioSet>, counts: PerLane<number>, distances: PerLane<number>): ScenarioItem {
  const shape = { kind: 'repeat', counts, distances } as const;
  return { kind: 'set', line: 0, shape, words: 'free', timing: { kind: 'untimed' }, hold: null, ...about };
}

const base = (plus: number) => ({ kind: 'base', plus }) as const;
const time = (seconds: number) => ({ kind: 'time', ms: seconds * 1000 }) as const;

/** The session that opens the README, in lanes of 1:20, 1:28 and 1:41. */
function thursday() {
  const step = 0;
  return plainSession(
    [
      part(
        'Warm-up',
        { kind: 'timed-swim', line: 0, ms: 360_000, words: 'choice' },
        line({ timing: { kind: 'interval', lanes: { same: base(10_000) }, step } }, { same: 4 }, { same: 500 }),
        pause('talk', 90),
      ),
      part(
        'Pull',
        line(
          { timing: { kind: 'interval', lanes: { each: [time(200), time(220), time(190)] }, step } },
          { same: 2 },
          { each: [2000, 2000, 1500] },
        ),
      ),
      part(
        'Main set',
        rounds(
          3,
          line({ timing: { kind: 'interval', lanes: { same: base(0) }, step } }, { same: 1 }, { same: 1500 }),
          line(
            {
              timing: { kind: 'interval', lanes: { each: [time(50), time(55), time(65)] }, step },
              hold: { same: { kind: 'css', plus: -2000 } },
            },
            { same: 4 },
            { same: 500 },
          ),
        ),
        line({ timing: { kind: 'rest', lanes: { same: 15_000 } } }, { each: [8, 7, 6] }, { same: 750 }),
      ),
      part('Swim-down', line({ words: 'easy choice' }, { same: 1 }, { same: 2000 })),
    ],
    {
      start: 19 * 60 + 30,
      finish: 20 * 60 + 30,
      lanes: [
        lane(1, { css: 80_000, base: 90_000, swimmers: 5 }),
        lane(2, { css: 88_000, swimmers: 6 }),
        lane(3, { css: 101_000, swimmers: 3, gap: 10 }),
      ],
    },
  );
}

describe('the model of the plan, against sums on paper', () => {
  test('a base that is not written is css x 1.05 + 10 s, rounded up to the grid', () => {
    const bases = modelTimetable(thursday()).lanes.map((one) => (one as { baseMs: number }).baseMs);
    expect(bases).toEqual([90_000, 105_000, 120_000]);
  });

  test('stretches end with their longest lane and its tail, parts begin after the allowance', () => {
    const timetable = modelTimetable(thursday());
    expect(timetable.stretches).toMatchObject([
      { kind: 'swim', part: 'Warm-up', waits: 'call', startMs: 0, durationMs: 660_000 },
      { kind: 'talk', part: 'Warm-up', waits: 'auto', startMs: 660_000, durationMs: 90_000 },
      { kind: 'swim', part: 'Pull', waits: 'call', startMs: 810_000, durationMs: 465_000 },
      { kind: 'swim', part: 'Main set', waits: 'call', startMs: 1_335_000, durationMs: 1_910_000 },
      { kind: 'swim', part: 'Swim-down', waits: 'call', startMs: 3_305_000, durationMs: 255_000 },
    ]);
    expect(timetable).toMatchObject({ durationMs: 3_560_000, overMs: 0, startsAt: '19:30', finishBy: '20:30' });
  });

  test('intervals by base and by rest are rounded up to the grid, targets by css to a tenth', () => {
    const timetable = modelTimetable(thursday());
    const figures = (laneIndex: number) =>
      leavesOf(timetable, laneIndex)
        .filter((leaf) => [4, 10, 11, 12].includes(leaf.line) && leaf.rep === 1)
        .map((leaf) => [leaf.line, leaf.intervalMs / 1000, leaf.targetMs]);
    const round = [
      [
        [10, 135, null],
        [11, 50, 39_000],
      ],
      [
        [10, 160, null],
        [11, 55, 43_000],
      ],
      [
        [10, 180, null],
        [11, 65, 49_500],
      ],
    ];
    const warmUp = [55, 65, 70];
    const rest = [80, 85, 95];
    [0, 1, 2].forEach((laneIndex) => {
      const own = round[laneIndex] ?? [];
      expect(figures(laneIndex)).toEqual([
        [4, warmUp[laneIndex], null],
        ...own,
        ...own,
        ...own,
        [12, rest[laneIndex], null],
      ]);
    });
  });

  test('a timed block holds the reps that fit and takes its time exactly', () => {
    const block = (ms: number, seconds: number): ScenarioItem => ({
      kind: 'block',
      line: 0,
      ms,
      distances: { same: 1000 },
      words: '',
      timing: { kind: 'interval', lanes: { same: time(seconds) }, step: 0 },
      hold: null,
    });
    const timetable = modelTimetable(
      plainSession([part('Main', block(310_000, 100), block(60_000, 60), set(1, 50, 60))]),
    );
    expect(leavesOf(timetable).map((leaf) => [leaf.line, leaf.atMs / 1000, leaf.of])).toEqual([
      [3, 0, 3],
      [3, 100, 3],
      [3, 200, 3],
      [4, 310, 1],
      [5, 370, 1],
    ]);
    expect(timetable.durationMs).toBe(430_000);
  });

  test('what follows an untimed set waits for the coach, what follows a break does not', () => {
    const timetable = modelTimetable(
      plainSession([part('All', untimed(100), set(1, 50, 62), pause('break', 31), set(1, 50, 60))]),
    );
    // 100 easy at an assumed base of 2:00: 110 s x 1.1 = 121 s, on the grid 125 s.
    expect(timetable.stretches).toMatchObject([
      { waits: 'call', startMs: 0, durationMs: 125_000 },
      { waits: 'call', startMs: 125_000, durationMs: 62_000 },
      { waits: 'auto', startMs: 187_000, durationMs: 31_000 },
      { waits: 'auto', startMs: 220_000, durationMs: 60_000 },
    ]);
    expect(timetable.warnings).toEqual([{ code: 'assumed-base', line: 3, lane: 1 }]);
  });

  test('drop makes each rep shorter than the one before', () => {
    const dropping = line(
      { timing: { kind: 'interval', lanes: { same: time(60) }, step: -5000 } },
      { same: 3 },
      { same: 500 },
    );
    const timetable = modelTimetable(plainSession([part('Main', dropping)]));
    expect(leavesOf(timetable).map((leaf) => leaf.intervalMs)).toEqual([60_000, 55_000, 50_000]);
    expect(timetable.durationMs).toBe(165_000);
  });
});

describe('the model of reps and lanes that differ, against sums on paper', () => {
  const at = (word: ReturnType<typeof time> | { kind: 'base' | 'css'; plus: number }) =>
    ({ kind: 'interval', lanes: { same: word }, step: 0 }) as const;

  test('odds and evens have their own words, interval and target; what a rest gives is estimated', () => {
    const halves: ScenarioSet['timing'] = {
      kind: 'halves',
      odds: { words: 'fast', timing: at(time(50)), hold: { same: { kind: 'time', ms: 36_000 } } },
      evens: { words: 'kick', timing: { kind: 'rest', lanes: { same: 20_000 } }, hold: null },
    };
    const timetable = modelTimetable(
      plainSession([part('Main', line({ timing: halves }, { same: 3 }, { same: 500 }))], {
        lanes: [lane(1, { base: 110_000 })],
      }),
    );
    // Kicked at 1:40 a 100, a 50 takes 50 x 1.4 = 70 s, and 20 s of rest.
    const odd = { words: 'free fast', intervalMs: 50_000, targetMs: 36_000, estimated: false };
    const even = { words: 'free kick', intervalMs: 90_000, targetMs: null, estimated: true };
    expect(leavesOf(timetable)).toMatchObject([odd, even, odd]);
  });

  test('a list a rep gives each its own interval, by css too', () => {
    const listed: ScenarioSet['timing'] = {
      kind: 'listed',
      reps: [{ same: time(90) }, { same: { kind: 'css', plus: 10_000 } }, { same: base(0) }],
    };
    const timetable = modelTimetable(
      plainSession([part('Main', line({ timing: listed }, { same: 3 }, { same: 1000 }))], {
        lanes: [lane(1, { css: 72_000 })],
      }),
    );
    // Base: 72 x 1.05 + 10 = 85.6, on the grid 90.
    expect(leavesOf(timetable).map(({ intervalMs }) => intervalMs)).toEqual([90_000, 85_000, 90_000]);
  });

  test('lines for some lanes leave the others to go on; their lists have a value for each of these lanes', () => {
    const some: ScenarioItem = {
      kind: 'lanes',
      line: 0,
      lanes: [0, 2],
      items: [set([2, 1], 50, 60)],
      oneLine: false,
    };
    const timetable = modelTimetable(
      plainSession([part('Main', some, set(1, 25, 30))], { lanes: [lane(2), lane(3), lane(7)] }),
    );
    expect([0, 1, 2].map((laneIndex) => leavesOf(timetable, laneIndex).map((leaf) => [leaf.line, leaf.atMs]))).toEqual([
      [
        [4, 0],
        [4, 60_000],
        [5, 120_000],
      ],
      [[5, 0]],
      [
        [4, 0],
        [5, 60_000],
      ],
    ]);
  });

  test('notes belong to their part and make it no less empty', () => {
    const note: ScenarioItem = { kind: 'note', line: 0, words: 'mind the hands' };
    const timetable = modelTimetable(plainSession([part('Main', set(1, 50, 90)), part('Later', note)]));
    expect(timetable.notes).toEqual([{ line: 5, part: 'Later', partIndex: 1, kind: 'note', words: 'mind the hands' }]);
    expect(timetable.warnings).toContainEqual({ code: 'empty-part', line: 4, lane: null });
  });

  test('a distance among the words is not swum, unless they say of what it is', () => {
    const warned = (words: string) =>
      modelTimetable(plainSession([part('Main', set(1, 300, 600, words))])).warnings.some(
        ({ code }) => code === 'words-distance',
      );
    expect(['swim 200 kick', 'fast 50, easy 50', '60 strokes', 'swim 40'].map(warned)).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(['by 50', 'HR 150', 'as 50 kick 50 drill', 'the 200 pace', '75 % of it'].map(warned)).not.toContain(true);
  });
});

describe('the warnings of the model, against sums on paper', () => {
  const codes = (session: ReturnType<typeof plainSession>) => modelTimetable(session).warnings.map(({ code }) => code);

  test('four fit in a 25 yd lane at 1:30 a 100, ten seconds apart, and ten in a 50 m lane at 1:40', () => {
    const yards = (swimmers: number) =>
      plainSession([part('Main', set(1, 100, 120))], {
        pool: { hundredths: 2500, unit: 'yd' },
        lanes: [lane(1, { base: 100_000, swimmers, gap: 10 })],
      });
    const metres = (swimmers: number) =>
      plainSession([part('Main', set(1, 100, 120))], {
        pool: { hundredths: 5000, unit: 'm' },
        lanes: [lane(1, { base: 110_000, swimmers, gap: 10 })],
      });
    expect([yards(4), yards(5), metres(10), metres(11)].map(codes)).toEqual([[], ['lane-full'], [], ['lane-full']]);
  });

  test('rest below 5 s is short, rest below nothing cannot be made', () => {
    const at = (seconds: number) =>
      plainSession([part('Main', set(1, 100, seconds))], { lanes: [lane(1, { base: 100_000 })] });
    expect([at(95), at(94), at(90), at(89)].map(codes)).toEqual([[], ['rest-short'], ['rest-short'], ['cannot-make']]);
  });

  test('an odd number of lengths ends away from the screen, if more is swum after it', () => {
    const session = plainSession([part('Main', set(1, 75, 120), set(1, 25, 60), set(1, 25, 60))], {
      lanes: [lane(1, { base: 100_000 })],
    });
    expect(modelTimetable(session).warnings).toEqual([{ code: 'far-end', line: 3, lane: 1 }]);
  });

  test('a tail that leaves as the lead leaves again is late', () => {
    const session = plainSession([part('Main', set(2, 25, 40), pause('break', 30), set(1, 25, 40))], {
      lanes: [lane(1, { base: 100_000, swimmers: 5, gap: 10 })],
    });
    expect(modelTimetable(session).warnings).toEqual([{ code: 'tail-late', line: 3, lane: 1 }]);
  });

  test('a distance that is not a whole number of lengths, a heading with nothing under it', () => {
    const session = plainSession([part('Main', set(1, 60, 90)), part('Later')], {
      lanes: [lane(1, { base: 100_000 })],
    });
    expect(modelTimetable(session).warnings).toEqual([
      { code: 'part-lengths', line: 3, lane: null },
      { code: 'empty-part', line: 4, lane: null },
    ]);
  });
});
