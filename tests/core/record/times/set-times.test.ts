/* Hand times by lane and set: pace, against the target, fade, and the test that gives a CSS. */

import { expect, test } from 'vitest';
import { NOTHING_ADDED, type HandTimes } from '../../../../app/core/record/afterwards.ts';
import { recordOf, type RunRecord } from '../../../../app/core/record/record.ts';
import { cssTestsOf, setTimesOf } from '../../../../app/core/record/times/set-times.ts';
import { keptRun } from '../../../support/run/kept-run.ts';

const TEXT = `Squad
lane 1
lane 2

Main set
2 rounds
  2 x 50 fast @ 1:00 hold 0:40
400 @ 8:00
200 @ 5:00
`;

/** Both lanes leave at 10, 70, 130, 190, 250 and 730 s. */
const timed = (...times: readonly (readonly [lane: number, at: number, ...watches: number[]])[]): RunRecord => {
  const kept = times.map(([lane, at, ...watches]): HandTimes => ({ lane, at: at * 1000, watches: watches.map(toMs) }));
  return recordOf(keptRun(TEXT, [[0, { do: 'start' }]]), { ...NOTHING_ADDED, times: kept });
};

const toMs = (seconds: number): number => Math.round(seconds * 1000);

test('[hand times] by passage through a set: each rep’s pace, over or under its target, and the fade', () => {
  const record = timed([1, 10, 39.5], [1, 70, 41.25], [1, 130, 40], [2, 70, 40.1, 40.3, 40.2]);
  expect(setTimesOf(record).map(({ lane, reps, fade }) => ({ lane, reps, fade }))).toEqual([
    {
      lane: 1,
      reps: [
        { rep: 1, of: 2, at: 10_000, time: 39_500, pace: 79_000, over: -500 },
        { rep: 2, of: 2, at: 70_000, time: 41_200, pace: 82_400, over: 1200 },
      ],
      fade: 3400,
    },
    { lane: 1, reps: [{ rep: 1, of: 2, at: 130_000, time: 40_000, pace: 80_000, over: 0 }], fade: null },
    { lane: 2, reps: [{ rep: 2, of: 2, at: 70_000, time: 40_200, pace: 80_400, over: 200 }], fade: null },
  ]);
});

test('[hand times] what stands beside a time is worked out of the time as it is shown, in tenths', () => {
  const text = ['T', 'Main', '50 @ 1:00 hold 0:46', '75 @ 2:00 hold 0:46.5', '400 @ 8:00', '200 @ 5:00'].join('\n');
  const taken = [22_870, 23_590, 360_090, 170_010];
  const times = [10, 70, 190, 670].map((second, index) => ({ lane: 1, at: second * 1000, watches: [taken[index]!] }));
  const record = recordOf(keptRun(text, [[0, { do: 'start' }]]), { ...NOTHING_ADDED, times });
  expect(setTimesOf(record).map(({ reps }) => [reps[0]!.time, reps[0]!.pace, reps[0]!.over])).toEqual([
    [22_800, 45_600, -23_200],
    [23_500, 31_300, -23_000],
    [360_000, 90_000, null],
    [170_000, 85_000, null],
  ]);
  expect(cssTestsOf(record)).toEqual([{ lane: 1, test: { ok: true, css: 95_000, caution: null } }]);
  // The record keeps the hundredths of the watch.
  expect(record.lanes[0]!.leaves.map(({ time }) => time)).toEqual(taken);
});

test('[CSS] one timed 400 and one timed 200 of a part are a test of the lane', () => {
  const record = timed([1, 250, 360], [1, 730, 170], [2, 250, 360]);
  expect(cssTestsOf(record)).toEqual([{ lane: 1, test: { ok: true, css: 95_000, caution: null } }]);
});

test('[CSS] no test where one of the two is missing, twice there or in another part', () => {
  const text = ['T', 'Warm', '400 @ 8:00', 'Main', '400 @ 8:00', '400 @ 8:00', '200 @ 4:00', '300 @ 6:00'].join('\n');
  const start = [
    [0, { do: 'start' }],
    [500, { do: 'start' }],
  ] as const;
  const testsOf = (...at: readonly number[]): readonly unknown[] => {
    const times = at.map((second) => ({ lane: 1, at: second * 1000, watches: [300_000 - (second % 7) * 1000] }));
    return cssTestsOf(recordOf(keptRun(text, start), { ...NOTHING_ADDED, times }));
  };
  // The leaves: the 400s at 10, 510 and 990, the 200 at 1470, the 300 at 1710.
  expect(recordOf(keptRun(text, start)).lanes[0]!.leaves.map(({ at }) => at / 1000)).toEqual([
    10, 510, 990, 1470, 1710,
  ]);
  expect(testsOf(10, 1470)).toEqual([]);
  expect(testsOf(510)).toEqual([]);
  expect(testsOf(510, 990)).toEqual([]);
  expect(testsOf(510, 990, 1470)).toEqual([]);
  expect(testsOf(510, 1710)).toEqual([]);
  expect(testsOf(10, 990, 1470, 1710)).toHaveLength(1);
});

test('[hand times] a swim by time has no pace, an untimed set nothing over its target, and neither fades', () => {
  const text = ['T', 'Main', '2:00 easy', '2 x 50 @ 1:00 hold 0:40', '4 x 50 easy hold 0:40'].join('\n');
  const times = [10, 130, 190, 250].map((second) => ({ lane: 1, at: second * 1000, watches: [45_000] }));
  const record = recordOf(keptRun(text, [[0, { do: 'start' }]]), { ...NOTHING_ADDED, times });
  expect(setTimesOf(record).map(({ first, reps, fade }) => [first.rep.set.line, reps, fade])).toEqual([
    [3, [{ rep: 1, of: 1, at: 10_000, time: 45_000, pace: null, over: null }], null],
    [
      4,
      [
        { rep: 1, of: 2, at: 130_000, time: 45_000, pace: 90_000, over: 5000 },
        { rep: 2, of: 2, at: 190_000, time: 45_000, pace: 90_000, over: 5000 },
      ],
      0,
    ],
    [5, [{ rep: 1, of: 1, at: 250_000, time: 45_000, pace: 22_500, over: null }], null],
  ]);
});
