/*
 * Lines whose reps are not alike: odds and evens, one interval or target a rep; and intervals by css.
 */

import { describe, expect, test } from 'vitest';
import { parseSession } from '../../../app/core/session/parse.ts';
import { makePlan } from '../../../app/core/plan/make-plan.ts';
import { warningsOf } from '../../../app/core/plan/warnings/warnings.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';

/** Three lanes, the third without a css; the line stands at line 6. */
const SQUAD = 'lane 1 css 1:20, base 1:30\nlane 2 css 1:28, base 1:40\nlane 4 base 2:00\nTitle\nPart\n';

function planOf(line: string): Plan {
  const read = parseSession(`${SQUAD}${line}\n`, null);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return makePlan(read.value, { text: '', lanesText: null });
}

/** Of the lane at a place in lane order, each rep as "words, interval in seconds, target in seconds". */
function reps(line: string, lane = 0): readonly string[] {
  const seconds = (ms: number | null): string => (ms === null ? '-' : `${ms / 1000}`);
  return planOf(line).stretches[0]!.lanes[lane]!.reps.map(
    ({ words, interval, target, estimated }) =>
      `${words}, ${estimated ? 'about ' : ''}${seconds(interval)}, ${seconds(target)}`,
  );
}

function fault(line: string): string {
  const read = parseSession(`${SQUAD}${line}\n`, null);
  return read.ok ? 'none' : read.faults.map(({ column, message }) => `${column}: ${message}`).join(' | ');
}

describe('[odds and evens]', () => {
  test('each half has its interval or rest, its words and its hold', () => {
    const line = '4 x 50 free odds fast @ 0:50 hold 0:36, evens easy rest 20';
    expect(reps(line)).toEqual([
      'free fast, 50, 36',
      'free easy, about 70, -',
      'free fast, 50, 36',
      'free easy, about 70, -',
    ]);
  });

  test('in either order, without a comma, with a list for the lanes', () => {
    expect(reps('3 x 50 evens @ 1:00/1:05/1:10 odds kick @ 1:30', 1)).toEqual([
      'kick, 90, -',
      ', 65, -',
      'kick, 90, -',
    ]);
  });

  test('a hold before the first of them is for both', () => {
    expect(reps('2 x 50 hold 0:40 odds @ 0:50, evens @ 1:00')).toEqual([', 50, 40', ', 60, 40']);
  });

  test('the factor of the words is each half’s own: a rest goes by it', () => {
    expect(reps('2 x 100 odds kick rest 10, evens rest 10')).toEqual(['kick, about 130, -', ', about 95, -']);
  });

  test.each([
    ['4 x 50 odds fast, evens easy @ 1:00', 'odds fast, evens easy, 60, -'],
    ['4 x 50 free, odds fast @ 1:00', 'free, odds fast, 60, -'],
    ['4 x 50 @ 1:00 evens easy, odds fast', 'evens easy, odds fast, 60, -'],
    ['4 x 50 odds-and-ends evens @ 1:00', 'odds-and-ends evens, 60, -'],
  ])('with none in the first half they are words: %s', (line, rep) => {
    expect(reps(line)[0]).toBe(rep);
  });

  test.each([
    ['4 x 50 odds fast @ 0:50, evens easy', 'an interval or rest is missing after evens'],
    ['4 x 50 @ 1:00 odds fast @ 0:50, evens easy @ 1:00', 'a third interval or rest'],
    ['4 x 50 odds @ 0:50 rest 10, evens @ 1:00', 'a second interval or rest'],
    ['4 x 50 odds @ 0:50 drop 5, evens @ 1:00', 'drop or add beside odds and evens'],
    ['4 x 50 odds @ 0:50, 0:45, evens @ 1:00', 'one value a rep beside odds and evens'],
    ['4 x 50 hold 0:40 odds @ 0:50 hold 0:38, evens @ 1:00', 'a second target'],
    ['50-100-50 odds @ 0:50, evens @ 1:00', 'odds and evens in a ladder'],
    ['10:00 of 50 odds @ 0:50, evens @ 1:00', 'odds and evens in a timed block'],
    ['4 x 50 odds @ css, evens @ 1:00', '@ css in lane 4, which has no css'],
  ])('a fault: %s', (line, words) => {
    expect(fault(line)).toContain(words);
  });

  test('a half that a lane cannot make is warned of with its own words', () => {
    const found = warningsOf(planOf('4 x 100 odds kick @ 1:20, evens @ 1:45')).filter(
      ({ code }) => code === 'cannot-make',
    );
    expect(found.map(({ lane }) => lane)).toEqual([1, 2, 4]);
  });
});

describe('[one interval a rep]', () => {
  test('as many as there are reps, each with its list for the lanes', () => {
    expect(reps('3 x 100 @ 1:30, 1:25/1:30/1:40, base', 1)).toEqual([', 90, -', ', 90, -', ', 100, -']);
  });

  test('targets too, beside one interval or beside as many', () => {
    expect(reps('2 x 100 fast @ 1:30, 1:40 hold 1:20, 1:18')).toEqual(['fast, 90, 80', 'fast, 100, 78']);
    expect(reps('2 x 100 hold 1:20, 1:18, strong @ 1:40')).toEqual(['strong, 100, 80', 'strong, 100, 78']);
  });

  test('of a ladder as many as it has rungs', () => {
    expect(reps('50-100 @ 1:00, 2:00')).toEqual([', 60, -', ', 120, -']);
  });

  test.each([
    ['2 x 50 @ 1:00, 25 fast', ['25 fast, 60, -', '25 fast, 60, -']],
    ['2 x 50 @ 1:00, 45', [', 60, -', ', 45, -']],
    ['2 x 50 @ 1:00,0:45', [', 60, -', ', 45, -']],
    ['2 x 50 @ 1:00, 45 s, fast', ['fast, 60, -', 'fast, 45, -']],
    ['2 x 50 @ 1:00, 45"', [', 60, -', ', 45, -']],
    ['2 x 50 @ 1:00, 2 min easy', ['easy, 60, -', 'easy, 120, -']],
    ['2 x 50 @ 1:00, 45 hold 0:40', [', 60, 40', ', 45, 40']],
  ])('a bare number goes on with the list only where a value is sure: %s', (line, all) => {
    expect(reps(line)).toEqual(all);
  });

  test.each([
    ['3 x 100 @ 1:30, 1:25', '2 intervals for 3 reps: write one for each rep'],
    ['3/3/0 x 100 @ 1:30, 1:25', '2 intervals for 3 reps: write one for each rep'],
    ['3/3/2 x 100 @ 1:30, 1:25, 1:20', '3 intervals for 2 reps in lane 4: write one for each rep'],
    ['100 @ 1:30, 1:25', '2 intervals for 1 rep: write one for each rep'],
    ['3 x 100 @ 1:40 hold 1:20, 1:18', '2 targets for 3 reps'],
    ['3 x 100 @ 1:40, 1:35, 1:30 hold 1:20, 1:18', '39: 2 targets for 3 reps: write one for each rep'],
    ['3 x 100 @ 1:40, 1:35 hold 1:20, 1:18, 1:16', '17: 2 intervals for 3 reps: write one for each rep'],
    ['3 x 100 @ 1:30, 1:25, 1:20 drop 5', 'drop after one interval a rep'],
    ['10:00 of 100 @ 1:30, 1:25', 'one value a rep in a timed block'],
    ['2 x 100 hold 1:20, 1:18', 'a target for each rep of an untimed set'],
    ['2 x 50 rest 15, 20', 'a comma and a number after a rest'],
    ['2 x 50 rest 15, 20 easy', 'a comma and a number after a rest'],
    ['2 x 50 @ 1:00, 5', '5 is too short for an interval'],
  ])('a fault: %s', (line, words) => {
    expect(fault(line)).toContain(words);
  });

  test('where a lane’s own line is at fault, it is not named', () => {
    const read = parseSession('lane 1 css 9\nTitle\nPart\n3 x 100 @ 1:30, 1:25', null);
    expect(read.ok ? [] : read.faults.map(({ line, message }) => [line, message])).toEqual([
      [1, expect.stringContaining('css')],
      [4, '2 intervals for 3 reps: write one for each rep'],
    ]);
  });

  test('a lane that sits out needs none', () => {
    expect(reps('2/2/0 x 100 @ 1:30, 1:25', 1)).toHaveLength(2);
  });
});

describe('[intervals by css]', () => {
  test('the lane’s css for the distance, more or less, up to the grid', () => {
    expect(reps('1/1/0 x 100 @ css', 1)).toEqual([', 90, -']);
    expect(reps('1/1/0 x 50 on css+10 easy', 0)).toEqual(['easy, 50, -']);
    expect(reps('1/1/0 x 200 @ css - 0:05', 0)).toEqual([', 155, -']);
  });

  test('a lane that swims it and has none is a fault that names it', () => {
    expect(fault('4 x 50 @ css+10')).toBe(
      '10: @ css in lane 4, which has no css: give the lane one, or write the interval',
    );
  });
});
