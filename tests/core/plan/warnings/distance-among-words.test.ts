/*
 * A number among a line's words that reads like a distance of its own.
 */

import { describe, expect, test } from 'vitest';
import { distanceAmong } from '../../../../app/core/plan/warnings/distance-among-words.ts';
import { warningsOf } from '../../../../app/core/plan/warnings/warnings.ts';
import { planOf } from '../../../support/run/deck.ts';

const POOL = 2500;

describe('[words-distance] a number among words is taken for a distance', () => {
  test.each([
    ['swim 200 kick', 2000],
    ['200', 2000],
    ['swim 50', 500],
    ['swim 62.5 kick', null],
    ['swim 200m kick', 2000],
    ['swim 200 m', 2000],
    ['swim 200  YD kick', 2000],
    ['swim 200y, easy', 2000],
    ['200, 100 kick', 2000],
    ['30 fast, 100 kick', 1000],
    ['(200 kick)', 2000],
    ['swim 200.', 2000],
    ['swim 200 kick at 90 %', 2000],
  ])('%j', (words, distance) => {
    expect(distanceAmong(words, POOL)).toBe(distance);
  });

  test('with its decimal where the pool makes lengths of it', () => {
    expect(distanceAmong('swim 67.5 kick', 2250)).toBe(675);
    expect(distanceAmong('swim 67.5 kick', POOL)).toBe(null);
  });
});

describe('[words-distance] it is none', () => {
  test.each([
    ['below 50: a count or a pace', ['with 25 hard', 'with 49 hard']],
    ['where it is not a whole number of lengths', ['with 60 strokes', '130 heart rate']],
    ['as part of a word, a reading or another number', ['use IM200', 'a 4x200', '200s', '200er', '1:100', '100:30 no']],
    ['next to a mark that joins it', ['2,100 kick', '.100 kick', "'100 kick", '’100 kick', '-100 kick', '100.25 kick']],
    [
      'where the word before says how, not how far',
      [
        ...['by 50', 'kick by 50s', 'every 100', 'each 100', 'first 100 fast', 'last 50 hard', 'last  50 hard'],
        ...['set of 100 kick', 'breathe in 100', 'fast at 100 turn', 'up to 100', 'HR 150', 'hr 150', 'BY 50'],
      ],
    ],
    ['where it is a rate or a pace', ['at least 100%', '100 % effort', 'swim 200 pace', 'swim 200 PACE, easy']],
    [
      'behind `as`, which tells how the line is made up',
      ['as 100 kick 100 swim', 'swim as: 100 kick', 'swum AS a 200 set'],
    ],
  ])('%s', (_, texts) => {
    expect(texts.filter((words) => distanceAmong(words, POOL) !== null)).toEqual([]);
  });

  test('but words that only contain such a word do not count', () => {
    const words = ['lady 100 kick', 'class 100 kick', 'pull-to 100', 'as-if 100 kick', 'swim 200 paced', 'at-most 200'];
    expect(words.filter((each) => distanceAmong(each, POOL) === null)).toEqual([]);
  });

  test('the next one may be', () => {
    expect(distanceAmong('by 50 and 200 kick', POOL)).toBe(2000);
    expect(distanceAmong('100% then 150 kick', POOL)).toBe(1500);
    expect(distanceAmong('60 and 150 kick', POOL)).toBe(1500);
  });

  test('asked twice, the answer is the same', () => {
    expect([1, 2].map(() => distanceAmong('swim 200 kick', POOL))).toEqual([2000, 2000]);
  });
});

test('[words-distance] is told once for all lanes, in the pool’s unit', () => {
  const plan = planOf('pool 25 yd\nlane 1\nlane 2\n300 swim 200 kick @ 9:00');
  const found = warningsOf(plan).filter(({ code }) => code === 'words-distance');
  expect(found).toEqual([
    {
      code: 'words-distance',
      line: 4,
      lane: null,
      message: '200 yd stands among the words and is not swum: write a line for each set.',
    },
  ]);
});

test.each([
  '300 swim 200 kick @ 9:00',
  '10:00 of 100s swim 200 kick @ 2:00',
  '10:00 swim 200 kick',
  '2 x 2 x 50 swim 200 kick @ 1:00',
])('[words-distance] is told of any line that is swum: %s', (line) => {
  const found = warningsOf(planOf(`lane 1 base 2:00\n${line}`)).filter(({ code }) => code === 'words-distance');
  expect(found.map((warning) => [warning.line, warning.message])).toEqual([
    [2, '200 m stands among the words and is not swum: write a line for each set.'],
  ]);
});
