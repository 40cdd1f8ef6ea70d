/*
 * From a lane's pace to expected times, intervals and targets.
 */

import { describe, expect, test } from 'vitest';
import { ratio } from '../../../../app/core/ratio.ts';
import {
  baseFromCss,
  cssFromBase,
  expectedSwim,
  factorOf,
  intervalByPace,
  intervalByRest,
  isSwimDown,
  paceOf,
  targetOf,
} from '../../../../app/core/session/lanes/pace.ts';
import { lane } from '../../../support/coach/hand-session.ts';

describe('the factor of a rep’s words, whole words, the largest that applies', () => {
  const factor = (words: string, part = 'Main'): number => {
    const { num, den } = factorOf(words, part);
    return num / den;
  };

  test.each([
    [1.4, ['kick', 'KICK', 'free kicks', 'kicking on the back', 'easy kick', 'drill, kick', 'swim-down kick']],
    [1.25, ['drill', 'drills', 'scull', 'sculls', 'easy sculling', '(Drill)']],
    [1.1, ['easy', 'EASY', 'swim-down', 'swim down', 'warm-down', 'cool down', 'cool\u2011down', 'free, easy.']],
    [
      1,
      [
        ...['', 'free', 'kicker', 'sidekick', 'flutter-kick', 'kick-out', 'kick2', '2kick', 'kické'],
        ...['drilling', 'mandrill', 'drill-based', 'skull', 'scull-like', 'a\u2013drill'],
        ...['easygoing', 'uneasy', 'easy-ish', 'swimdown', 'swim  down', 'swim-downs', 'downswim-down', 'warm up'],
      ],
    ],
  ])('%d', (expected, words) => {
    expect(words.filter((each) => factor(each) !== expected)).toEqual([]);
  });

  test('a part whose whole name says so makes it easy', () => {
    expect(['Swim-down', 'Warm down', 'COOL-DOWN', 'cool\u2013down'].map((part) => factor('free', part))).toEqual([
      1.1, 1.1, 1.1, 1.1,
    ]);
    expect(factor('kick', 'Swim-down')).toBe(1.4);
    const others = ['Swim-down 2', 'The swim-down', 'Swim_down', 'Swimdown', 'Warm-up', 'Dry-down'];
    expect(others.filter(isSwimDown)).toEqual([]);
  });
});

describe('the expected time of a rep', () => {
  const seconds = (...[given, distance, factor, target]: Parameters<typeof expectedSwim>) => {
    const { num, den } = expectedSwim(given, distance, factor, target);
    return num / den / 1000;
  };

  test('is its target, whatever its words', () => {
    expect(seconds(lane(1), 1000, ratio(14, 10), 71_000)).toBe(71);
  });

  test('is css and a twentieth, else base less 10 s, but half of base at least; by the distance, times the factor', () => {
    expect(seconds(lane(1, { base: 200_000, css: 80_000 }), 500, ratio(1), null)).toBe(42);
    expect(seconds(lane(1, { base: 90_000, css: null }), 1000, ratio(1), null)).toBe(80);
    expect(seconds(lane(1, { base: 20_000, css: null }), 1000, ratio(1), null)).toBe(10);
    expect(seconds(lane(1, { base: 21_000, css: null }), 1000, ratio(1), null)).toBe(11);
    expect(seconds(lane(1, { base: 19_000, css: null }), 1000, ratio(1), null)).toBe(9.5);
    expect(seconds(lane(1, { base: 90_000, css: null }), 2000, ratio(14, 10), null)).toBe(224);
  });
});

describe('intervals and targets', () => {
  test('are exact up to the one rounding, up to the grid: of css, of pace, of a rest', () => {
    expect([baseFromCss(80_000, 5000), baseFromCss(80_000, 1000), baseFromCss(81_000, 1000)]).toEqual([
      95_000, 94_000, 96_000,
    ]);
    expect(intervalByPace(100_000, 500, 0, 5000)).toBe(50_000);
    expect(intervalByPace(100_000, 500, -1000, 5000)).toBe(50_000);
    expect(intervalByPace(100_000, 500, 1000, 5000)).toBe(55_000);
    expect(intervalByRest(15_000, ratio(80_001), 5000)).toBe(100_000);
    expect(intervalByRest(15_000, ratio(80_000), 5000)).toBe(95_000);
  });

  test('rest on base or css, and on neither where they are written', () => {
    const squad = lane(1, { base: 90_000, css: 80_000 });
    expect(paceOf({ kind: 'base', plus: 0 }, squad)).toBe(90_000);
    expect(paceOf({ kind: 'css', plus: 0 }, squad)).toBe(80_000);
    expect(paceOf({ kind: 'css', plus: 0 }, lane(1, { css: null }))).toBe(null);
    expect(paceOf({ kind: 'time', time: 60_000 }, squad)).toBe(null);
  });

  test('a target by css is scaled to the distance and rounded to a tenth, half up; none without a css', () => {
    const css = lane(1, { css: 80_000 });
    expect(targetOf(css, { kind: 'css', plus: 3000 }, 500)).toBe(41_500);
    expect(targetOf(css, { kind: 'css', plus: 100 }, 500)).toBe(40_100);
    expect(targetOf(css, { kind: 'css', plus: -300 }, 250)).toBe(19_900);
    expect(targetOf(lane(1, { css: null }), { kind: 'css', plus: 0 }, 500)).toBe(null);
    expect(targetOf(css, { kind: 'time', time: 38_000 }, 500)).toBe(38_000);
    expect(targetOf(css, undefined, 500)).toBe(null);
  });
});

test('base from css and back: the css of a base gives that base again, and no slower one does', () => {
  for (const grid of [1000, 5000, 10_000]) {
    for (let base = 40_000; base <= 600_000; base += grid) {
      const css = cssFromBase(base);
      expect([css % 100, baseFromCss(css, grid)]).toEqual([0, base]);
      expect(baseFromCss(css + 100, grid)).toBeGreaterThan(base);
    }
  }
});
