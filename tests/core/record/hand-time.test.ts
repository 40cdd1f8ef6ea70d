/* Times by hand, against the rules of World Aquatics and published splits (shared check values 5B and 11). */

import { describe, expect, test } from 'vitest';
import { fadeOf, handTime, paceOf } from '../../../app/core/record/hand-time.ts';

describe('[World Aquatics SW 11.3] what watches come to', () => {
  test('three that differ: the one in the middle', () => {
    expect(handTime([33_560, 33_740, 33_650])).toBe(33_650);
  });

  test('two of three that agree', () => {
    expect(handTime([33_740, 33_560, 33_740])).toBe(33_740);
    expect(handTime([33_560, 33_740, 33_560])).toBe(33_560);
  });

  test('two: their average', () => {
    expect(handTime([33_560, 33_740])).toBe(33_650);
  });

  test('[SW 11.2] the third digit behind the second is not used, of a watch or of an average', () => {
    expect(handTime([33_569])).toBe(33_560);
    expect(handTime([33_560, 33_750])).toBe(33_650);
  });
});

test('a time needs a watch', () => {
  expect(() => handTime([])).toThrow('a time needs a watch');
});

describe('pace and fade', () => {
  /** 400 m in 3:39.96 (Stockholm, 12 April 2025), by 50s. */
  const fifties = [24_750, 27_150, 27_750, 27_900, 28_280, 28_180, 28_380, 27_570];

  test('[published splits] 400 m in 3:39.96 is 54.99 a 100, 1500 m in 14:31.02 is 58.068', () => {
    expect(fifties.reduce((sum, split) => sum + split)).toBe(219_960);
    expect([paceOf(219_960, 4000), paceOf(871_020, 15_000)]).toEqual([54_990, 58_068]);
  });

  test('[published splits] 3:40.07 is 55.0175 a 100: half a millisecond counts up', () => {
    expect(paceOf(220_070, 4000)).toBe(55_018);
  });

  test('distances of no whole metres have paces too; a swim by time has none', () => {
    expect(paceOf(50_000, 625)).toBe(80_000);
    expect(paceOf(50_000, 0)).toBeNull();
  });

  test('[published splits] the second 200 of that 400 was 2.43 a 100 slower than the first', () => {
    // 1:47.55 and 1:52.41.
    expect(fadeOf(fifties.map((split) => paceOf(split, 500)!))).toBe(2430);
  });

  test('of an odd number the one in the middle counts for neither half; one alone fades from nothing', () => {
    expect(fadeOf([60_000, 99_000, 58_000])).toBe(-2000);
    expect([fadeOf([]), fadeOf([60_000])]).toEqual([null, null]);
  });
});
