/*
 * Sets, reps, rounds and intervals as they stand on a whiteboard.
 */

import { describe, expect, test } from 'vitest';
import { setOnLine } from '../../../app/core/session/item-on-line.ts';
import { distanceIn, distanceText, poolText } from '../../../app/core/words/distance.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { holdText, intervalText, onText } from '../../../app/core/words/interval.ts';
import { repOf, repText, repWords } from '../../../app/core/words/rep.ts';
import { roundCell, roundNumbers, roundsText, roundText } from '../../../app/core/words/round.ts';
import {
  byLane,
  byRep,
  headingWords,
  itemWords,
  laneSetWords,
  ladderText,
  NO_CUTS,
} from '../../../app/core/words/set.ts';
import { followingText, kindText, pauseText } from '../../../app/core/words/stretch.ts';
import { runOf } from '../../support/coach/coach-run.ts';

const HEAD = 'lane 1 base 1:30\nlane 2 base 1:40\nSet\n';
const planOf = (lines: string) => runOf(`${HEAD}${lines}`).plan;
const itemsOf = (lines: string) => planOf(lines).session.parts[0]!.items;
const firstRep = (lines: string) => planOf(lines).stretches[0]!.lanes[0]!.reps[0]!;

describe('[words] a set', () => {
  test.each([
    ['4 x 50 fast @ 1:00', '4 x 50 fast'],
    ['150 steady @ 3:00', '150 steady'],
    ['8/7 x 75 free @ 1:30', '8/7 x 75 free'],
    ['4 x 100/75 @ 2:00', '4 x 100/75'],
    ['100-200-100 pull @ base', '100-200-100 pull'],
    ['100-100 @ 2:00', '100-100'],
    ['20:00 of 100s free @ base', '20:00 of 100s free'],
    ['15:00 easy', '15:00 easy'],
    ['3 rounds\n  50 @ 1:00\n  2 x 25 @ 0:30', '3 rounds: 50, 2 x 25'],
    ['2 rounds\n  3 rounds\n    50 @ 1:00\n  25 @ 0:30', '2 rounds: 3 rounds of (50), 25'],
    ['50 @ 1:00\ntalk 1:30 turns', '50'],
  ])('%j reads %s', (lines, words) => {
    expect(itemWords(itemsOf(lines)[0]!, NO_CUTS)).toBe(words);
  });

  test('a talk or break has its length before its words', () => {
    const [, talk, rest] = itemsOf('50 @ 1:00\ntalk 1:30 turns\nbreak 0:45');
    expect([itemWords(talk!, NO_CUTS), itemWords(rest!, NO_CUTS)]).toEqual(['talk 1:30 turns', 'break 0:45']);
    expect(pauseText({ kind: 'break', time: 3_600_000, words: 'tea' })).toBe('break 1:00:00 tea');
  });

  test('what is cut is not counted, and one rep or round stays', () => {
    const [set, rounds] = itemsOf('8/3 x 75 free @ 1:30\n3 rounds\n  100-200-100 @ 4:00');
    const cut = (line: number, n: number) => new Map([[line, n]]);
    expect(itemWords(set!, cut(4, 2))).toBe('6/1 x 75 free');
    const lane = (index: number, n: number) =>
      laneSetWords(set as Extract<typeof set, { kind: 'set' }>, index, cut(4, n));
    expect([lane(0, 0), lane(0, 5), lane(1, 5)]).toEqual(['8 x 75 free', '3 x 75 free', '75 free']);
    const [ladder] = itemsOf('100-200-100 @ 4:00');
    expect(laneSetWords(ladder as Extract<typeof ladder, { kind: 'set' }>, 0, cut(4, 1))).toBe('100-200');
    expect(itemWords(itemsOf('0/4 x 50 @ 1:00')[0]!, cut(4, 1))).toBe('0/3 x 50');
    expect(itemWords(rounds!, cut(5, 2))).toBe('1 round: 100-200-100');
    expect(itemWords(rounds!, cut(6, 1))).toBe('3 rounds: 100-200');
  });

  test('a line for some lanes has their names in front and their values alone, and they stand once over what is under it', () => {
    const words = (lines: string) => itemWords(itemsOf(lines)[0]!, NO_CUTS);
    expect(words('lane 2: 4 x 50 fast @ 1:00')).toBe('lane 2: 4 x 50 fast');
    expect(words('lanes 1-2: 4/3 x 50 fast @ 1:00')).toBe('lanes 1 and 2: 4/3 x 50 fast');
    expect(words('lane 2: 10:00 of 100s @ 2:00')).toBe('lane 2: 10:00 of 100s');
    expect(words('lane 1: 10:00 easy')).toBe('lane 1: 10:00 easy');
    expect(words('lanes 1-2:\n  4 x 50 @ 1:00\n  2 rounds\n    25 @ 0:30\n    5:00 easy')).toBe(
      'lanes 1 and 2: 4 x 50, 2 rounds of (25, 5:00 easy)',
    );
    expect(words('lane 1: 2 rounds\n  25 @ 0:30')).toBe('2 rounds: lane 1: 25');
  });

  test('over what stands under it, a line says its rounds or its lanes alone; one without has no such words', () => {
    const heading = (lines: string, cuts = NO_CUTS) => headingWords(itemsOf(lines)[0]!, cuts);
    expect(heading('3 rounds\n  50 @ 1:00')).toBe('3 rounds');
    expect(heading('3 rounds\n  50 @ 1:00', new Map([[4, 2]]))).toBe('1 round');
    expect(heading('lane 2:\n  50 @ 1:00')).toBe('lane 2');
    expect(heading('3 x 4 x 50 @ 1:00')).toBe(null);
    expect(heading('4 x 50 @ 1:00')).toBe(null);
    expect(headingWords(itemsOf('50 @ 1:00\ntalk 1:00')[1]!, NO_CUTS)).toBe(null);
  });

  test('of `3 x 4 x 50` the rounds are cut, not the reps in them', () => {
    const [item] = itemsOf('3 x 4 x 50 @ 1:00');
    expect(itemWords(item!, new Map([[4, 2]]))).toBe('1 round: 4 x 50');
    const both = new Map([
      [4, 1],
      [5, 1],
    ]);
    expect(itemWords(itemsOf('3 rounds\n  4 x 50 @ 1:00')[0]!, both)).toBe('2 rounds: 3 x 50');
  });

  test('one value where all agree, else one each', () => {
    expect([byLane(['50', '50']), byLane(['50', '75']), byLane([])]).toEqual(['50', '50/75', '']);
    expect([byRep(['1:30', '1:30']), byRep(['1:30', '1:25'])]).toEqual(['1:30', '1:30-1:25']);
    expect(ladderText([1000, 1000])).toBe('100-100');
  });

  test('it is found by its line in rounds too', () => {
    const [part] = planOf('3 rounds\n  4 x 50 @ 1:00').session.parts;
    expect([setOnLine(part!, 5)?.kind, setOnLine(part!, 4), setOnLine(part!, 9)]).toEqual(['set', null, null]);
  });
});

describe('[words] a rep', () => {
  test('has its unit where it has no words, and its length where it is by time', () => {
    expect(repText(firstRep('4 x 50 fast @ 1:00'), 'm')).toBe('50 fast');
    expect(repText(firstRep('4 x 62.5 @ 1:30'), 'yd')).toBe('62.5 yd');
    expect(repText(firstRep('15:00 easy swim'), 'm')).toBe('15:00 easy swim');
  });

  test('beside its interval stands without either', () => {
    const texts = ['4 x 50 fast @ 1:00', '4 x 50 @ 1:00', '15:00 easy'].map((line) => repWords(firstRep(line)));
    expect(texts).toEqual(['50 fast', '50', 'easy']);
  });

  test('is one of so many', () => {
    expect(repOf({ rep: { rep: 3 }, of: 8 })).toBe('3 of 8');
  });
});

describe('[words] an interval', () => {
  test('is marked where it is an estimate; a swim by time is for it, an untimed set on none', () => {
    const timing = (line: string) => [intervalText(firstRep(line)), onText(firstRep(line))];
    expect(timing('4 x 50 @ 1:00')).toEqual(['1:00', 'on 1:00']);
    expect(timing('4 x 100 rest 20')[1]).toMatch(/^on ≈1:\d\d$/);
    expect(timing('15:00 easy')[1]).toBe('for 15:00');
    expect(timing('200 easy')[1]).toBe('');
  });

  test('a target is said where there is one', () => {
    expect([holdText(38_500), holdText(null)]).toEqual(['hold 0:38.5', '']);
  });

  test('the mark of an estimate touches what it marks', () => {
    expect([`${about(true)}6:10`, `${about(false)}6:10`]).toEqual(['≈6:10', '6:10']);
  });
});

describe('[words] rounds', () => {
  const nested = [
    { round: 2, of: 3 },
    { round: 1, of: 4 },
  ];

  test('say which of how many, outermost first', () => {
    expect(roundText(nested)).toBe('round 2 of 3, round 1 of 4');
    expect(roundText([])).toBe('');
    expect(roundNumbers(nested)).toBe('round 2, round 1');
    expect(roundCell(nested)).toBe('2 of 3; 1 of 4');
  });

  test('are counted', () => {
    expect([1, 3].map(roundsText)).toEqual(['1 round', '3 rounds']);
  });
});

test('[words] what follows is a set, a talk or a break', () => {
  const kinds = (['swim', 'talk', 'break'] as const).map((kind) => [kindText({ kind }), followingText({ kind })]);
  expect(kinds).toEqual([
    ['set', 'next set'],
    ['talk', 'talk'],
    ['break', 'break'],
  ]);
});

test('[words] distances have a decimal only where they have one', () => {
  expect([1000, 625, 5].map(distanceText)).toEqual(['100', '62.5', '0.5']);
  expect([distanceIn(625, 'yd'), poolText(3333, 'm'), poolText(5000, 'm')]).toEqual(['62.5 yd', '33.33 m', '50 m']);
});
