/*
 * Paces and fades of races whose splits were published, through the program's own figures: to the hundredth from the
 * splits, and in tenths as a coach reads them who has timed the same swims by hand. A second half is compared with the
 * first from the published times at half way and at the end.
 */

import { describe, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../app/core/record/afterwards.ts';
import { fadeOf, paceOf } from '../../app/core/record/times/hand-time.ts';
import { recordOf } from '../../app/core/record/record.ts';
import { setTimesOf } from '../../app/core/record/times/set-times.ts';
import { keptRun } from '../support/run/kept-run.ts';

interface Race {
  readonly name: string;
  /** Each 50, as published. */
  readonly fifties: string;
  /** At each 50 since the start, as published or summed from it. */
  readonly since: string;
  /** ms a 100 of the whole; a half counts up. */
  readonly pace: number;
  /** ms a 100 that the second half was slower. */
  readonly fade: number;
}

const RACES: readonly Race[] = [
  {
    // Source: swimswam.com, "Olympic 1500 splits, world record progression": all 30 splits. 871.02 s; 7:16.15 at half
    // way, then 7:14.87: 1.28 s less over 750 m.
    name: '1500 m freestyle, London 2012, 14:31.02',
    fifties: `27.09 28.71 29.46 29.05 29.35 28.97 29.53 29.34 29.23 28.89 29.26 29.27 29.25 29.34 29.41
      29.30 29.49 29.38 29.46 29.32 29.42 29.21 29.54 29.37 29.17 29.19 29.39 29.14 27.81 25.68`,
    since: `27.09 55.80 1:25.26 1:54.31 2:23.66 2:52.63 3:22.16 3:51.50 4:20.73 4:49.62 5:18.88 5:48.15 6:17.40 6:46.74
      7:16.15 7:45.45 8:14.94 8:44.32 9:13.78 9:43.10 10:12.52 10:41.73 11:11.27 11:40.64 12:09.81 12:39.00 13:08.39
      13:37.53 14:05.34 14:31.02`,
    pace: 58_068,
    fade: -171,
  },
  {
    // Source: swimswam.com/?p=915535. 1:47.55 and then 1:52.41: 4.86 s more over 200 m.
    name: '400 m freestyle, Stockholm, 12 April 2025, 3:39.96',
    fifties: '24.75 27.15 27.75 27.90 28.28 28.18 28.38 27.57',
    since: '24.75 51.90 1:19.65 1:47.55 2:15.83 2:44.01 3:12.39 3:39.96',
    pace: 54_990,
    fade: 2430,
  },
  {
    // Source: swimswam.com/?p=915535. 55.0175 s a 100. 1:51.02 and then 1:49.05: 1.97 s less over 200 m.
    name: '400 m freestyle, Rome 2009, 3:40.07',
    fifties: '26.29 28.13 28.01 28.59 27.76 28.39 27.13 25.77',
    since: '26.29 54.42 1:22.43 1:51.02 2:18.78 2:47.17 3:14.30 3:40.07',
    pace: 55_018,
    fade: -985,
  },
];

describe.each(RACES)('[published splits] $name', ({ fifties, since, pace, fade }) => {
  const splits = timesIn(fifties);
  const passed = timesIn(since);

  test('every split is the difference of two published times', () => {
    expect(passed.map((time, index) => time - (passed[index - 1] ?? 0))).toEqual(splits);
  });

  test('the whole and each 50 have the published pace', () => {
    expect(paceOf(passed[passed.length - 1]!, passed.length * 500)).toBe(pace);
    expect(splits.map((split) => paceOf(split, 500))).toEqual(splits.map((split) => 2 * split));
  });

  test('the pace so far is right at every wall', () => {
    passed.forEach((time, index) => {
      const exact = (time * 2) / (index + 1);
      expect(Math.abs(paceOf(time, (index + 1) * 500)! - exact)).toBeLessThanOrEqual(0.5);
    });
  });

  test('the fade is that of the two halves', () => {
    expect(fadeOf(splits.map((split) => paceOf(split, 500)!))).toBe(fade);
  });

  // Less than a tenth of each 50 is cut off: less than 0.2 s a 100.
  test('timed by hand as reps of a set, each pace is the published one in tenths, and the fade near it', () => {
    const text = `Squad\nMain set\n${splits.length} x 50 @ 1:00\n`;
    const times = splits.map((split, index) => ({ lane: 1, at: 10_000 + index * 60_000, watches: [split] }));
    const record = recordOf(keptRun(text, [[0, { do: 'start' }]]), { ...NOTHING_ADDED, times });
    const [set, ...others] = setTimesOf(record);
    expect(others).toEqual([]);
    expect(set!.reps.map((rep) => rep.pace)).toEqual(splits.map((split) => 2 * (split - (split % 100))));
    expect(Math.abs(set!.fade! - fade)).toBeLessThan(200);
  });
});

/** "1:25.26 1:54.31", in ms. */
function timesIn(text: string): readonly number[] {
  return text
    .trim()
    .split(/\s+/)
    .map((time) => {
      const [, minutes, seconds, hundredths] = /^(?:(\d+):)?(\d\d)\.(\d\d)$/.exec(time)!;
      return Number(minutes ?? 0) * 60_000 + Number(seconds) * 1000 + Number(hundredths) * 10;
    });
}
