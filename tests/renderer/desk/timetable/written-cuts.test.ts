/*
 * The cuts that are offered while a session is written.
 */

import { describe, expect, test } from 'vitest';
import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import { totalsOf } from '../../../../app/core/plan/totals.ts';
import { textCut, writtenFit } from '../../../../renderer/desk/timetable/written-cuts.ts';
import { planOf } from '../../../support/run/deck.ts';

/** 6:00, 12:00 of rounds and the swim-down's 3:00, with a minute before each part: 23:00. */
const HOUR = [
  'start 19:00',
  'finish 19:21',
  'Warm-up',
  '6:00 choice',
  'Main',
  '2 rounds',
  '  6 x 50 @ 1:00',
  'Swim-down',
  '3:00 easy',
].join('\n');

const offered = (text: string): readonly string[] =>
  writtenFit(planOf(text))!.cuts.map(({ kind, n, line, saves }) => `${n} ${kind} of ${line}: ${saves / 1000}`);

describe('[fit] where the session runs over while it is written', () => {
  test('the smallest cut that is enough comes first: of every round, of a time, then a whole round', () => {
    expect(offered(HOUR)).toEqual(['1 reps of 7: 120', '120000 time of 4: 120', '1 rounds of 6: 360']);
    // Three reps of every round take as much as a round.
    expect(offered(HOUR.replace('19:21', '19:17'))).toEqual(['1 rounds of 6: 360']);
  });

  test('a time is cut by half minutes, and half of it stays', () => {
    expect(offered(HOUR.replace('6:00 choice', '6:20 choice'))[0]).toBe('150000 time of 4: 150');
    const times = offered(HOUR.replace('6:00 choice', '3:30 choice').replace('19:21', '19:18')).filter((cut) =>
      /time/.test(cut),
    );
    expect(times).toEqual([]);
  });

  test('where no reps are enough alone, a shorter time may be, and what takes several cuts stands below it', () => {
    const text = HOUR.replace('6:00 choice', '20:00 choice')
      .replace('2 rounds', '3 x 50 @ 1:00')
      .replace('  6 x 50', '3 x 100')
      .replace('19:21', '19:27');
    const found = writtenFit(planOf(text))!;
    expect(found.fit.serves).toBe('each');
    expect(found.cuts.map(({ kind, n }) => [kind, n])).toEqual([['time', 240_000]]);
    expect(found.smaller.map(({ kind, n }) => [kind, n])).toEqual([
      ['reps', 2],
      ['reps', 2],
    ]);
  });

  test('each ends when it says, carried out in the text', () => {
    const found = writtenFit(planOf(HOUR))!;
    for (const cut of found.cuts) {
      const opened = openPlan({ text: textCut(found, cut), lanesText: null });
      expect(opened.ok && totalsOf(opened.value).duration).toBe(cut.endsAt);
    }
  });

  test('a list of one interval or target a rep loses those of the reps that go', () => {
    const text = HOUR.replace('6 x 50 @ 1:00', '4 x 50 @ 1:40, 1:35, 1:25, 1:20 hold 40, 39, 38, 37');
    const found = writtenFit(planOf(text))!;
    const reps = found.cuts.find(({ line }) => line === 7)!;
    expect(reps).toMatchObject({ kind: 'reps', n: 1, saves: 160_000 });
    expect(textCut(found, reps)).toContain('  3 x 50 @ 1:40, 1:35, 1:25 hold 40, 39, 38\n');
  });

  test('the latest start of the swim-down is said, unless it is before the session', () => {
    expect(writtenFit(planOf(HOUR))!.startBy!.said).toBe('Swim-down must start by 19:18.');
    expect(writtenFit(planOf(HOUR.replace('3:00 easy', '30:00 easy')))!.startBy).toBeNull();
  });
});
