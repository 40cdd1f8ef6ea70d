/* Times by hand, against the rules of World Aquatics. Published splits are held in tests/outside. */

import { describe, expect, test } from 'vitest';
import { fadeOf, handTime, paceOf } from '../../../../app/core/record/times/hand-time.ts';

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
  test('distances of no whole metres have paces too; a swim by time has none', () => {
    expect(paceOf(50_000, 625)).toBe(80_000);
    expect(paceOf(50_000, 0)).toBeNull();
  });

  test('half a millisecond counts up', () => {
    expect(paceOf(220_070, 4000)).toBe(55_018);
  });

  test('of an odd number the one in the middle counts for neither half; one alone fades from nothing', () => {
    expect(fadeOf([60_000, 99_000, 58_000])).toBe(-2000);
    expect([fadeOf([]), fadeOf([60_000])]).toEqual([null, null]);
  });
});
