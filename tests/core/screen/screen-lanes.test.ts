/* Which lanes wall screens show, and which none does. */

import { describe, expect, test } from 'vitest';
import { lanesOn, lanesOnNone, readLanes } from '../../../app/core/screen/screen-lanes.ts';

const ALL = [1, 2, 3, 4, 5, 6];

describe('[screens] lanes', () => {
  test.each([
    ['', null],
    ['all', null],
    ['2', [2]],
    ['1,3', [1, 3]],
    ['4-2', [2, 3, 4]],
    ['1, 5 - 6, x', [1, 5, 6]],
  ])('an address with %j asks for %j', (text, lanes) => {
    expect(readLanes(text)).toEqual(lanes && new Set(lanes));
  });

  test('a screen whose lanes are not in the session shows all', () => {
    expect(lanesOn(ALL, new Set([4, 9]))).toEqual([4]);
    expect(lanesOn(ALL, new Set([9]))).toEqual(ALL);
    expect(lanesOn(ALL, null)).toEqual(ALL);
  });

  test('on no screen are those that none of them shows', () => {
    expect(lanesOnNone(ALL, [new Set([1, 2, 3]), new Set([3, 5])])).toEqual([4, 6]);
    expect(lanesOnNone(ALL, [new Set([1, 2, 3]), null])).toEqual([]);
    expect(lanesOnNone(ALL, [new Set([1]), new Set([9])])).toEqual([]);
  });
});
