/*
 * Exact fractions: always in lowest terms, never a float between, rounded where a rule says so.
 */

import { describe, expect, test } from 'vitest';
import { add, ceilTo, compare, floorDivide, multiply, ratio, roundTo } from '../../app/core/ratio.ts';

describe('a fraction', () => {
  test.each([
    [6, 4, { num: 3, den: 2 }],
    [-6, 4, { num: -3, den: 2 }],
    [0, 7, { num: 0, den: 1 }],
    [5, 5, { num: 1, den: 1 }],
    [Number.MAX_SAFE_INTEGER, 1, { num: Number.MAX_SAFE_INTEGER, den: 1 }],
  ])('%i/%i is in lowest terms', (num, den, lowest) => {
    expect(ratio(num, den)).toEqual(lowest);
  });

  test('without a denominator is whole', () => {
    expect(ratio(7)).toEqual({ num: 7, den: 1 });
  });

  test.each([
    [1, 0],
    [1, -1],
    [0.5, 1],
    [1, 0.5],
    [Number.MAX_SAFE_INTEGER + 1, 1],
    [1, Number.MAX_SAFE_INTEGER + 1],
    [Number.NaN, 1],
  ])('%d/%d is none', (num, den) => {
    expect(() => ratio(num, den)).toThrow(RangeError);
  });
});

describe('sums', () => {
  test('are exact', () => {
    expect(add(ratio(1, 3), ratio(1, 6))).toEqual({ num: 1, den: 2 });
    expect(add(ratio(1, 3), ratio(-1, 3))).toEqual({ num: 0, den: 1 });
    expect(multiply(ratio(2, 3), ratio(9, 4))).toEqual({ num: 3, den: 2 });
    expect(multiply(ratio(1, 2), ratio(-1, 3))).toEqual({ num: -1, den: 6 });
  });

  test('of large parts stay whole, cancelled before they are multiplied', () => {
    const large = 2 ** 40;
    expect(multiply(ratio(large, 3), ratio(3, large))).toEqual({ num: 1, den: 1 });
  });

  test('compare by size', () => {
    expect(Math.sign(compare(ratio(1, 3), ratio(1, 2)))).toBe(-1);
    expect(Math.sign(compare(ratio(1, 2), ratio(1, 3)))).toBe(1);
    expect(compare(ratio(2, 4), ratio(1, 2))).toBe(0);
    expect(Math.sign(compare(ratio(-1, 2), ratio(1, 3)))).toBe(-1);
  });
});

describe('rounding', () => {
  test.each([
    [5000, 0, 1, 0],
    [5000, 10_001, 2, 10_000],
    [5000, 10_000, 1, 10_000],
    [5000, 10_001, 1, 15_000],
    [5000, -1, 1, 0],
    [5000, -5000, 1, -5000],
    [1, 7, 2, 4],
  ])('up to a step of %i: %i/%i', (step, num, den, up) => {
    expect(ceilTo(step, ratio(num, den))).toBe(up);
  });

  test.each([
    [1, 7, 2, 4],
    [1, 10, 3, 3],
    [1, -7, 2, -3],
    [5, 12, 1, 10],
    [5, 25, 2, 15],
    [5, 13, 1, 15],
  ])('to the nearest step of %i, a half up: %i/%i', (step, num, den, near) => {
    expect(roundTo(step, ratio(num, den))).toBe(near);
  });

  test('down, below zero too', () => {
    const pairs = [
      [7, 2, 3],
      [-7, 2, -4],
      [6, 2, 3],
      [-6, 2, -3],
      [0, 5, 0],
    ] as const;
    for (const [num, den, down] of pairs) expect(floorDivide(num, den)).toBe(down);
    expect(Object.is(ceilTo(5, ratio(0)), 0)).toBe(true);
  });
});
