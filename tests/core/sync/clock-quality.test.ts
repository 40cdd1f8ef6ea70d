/* When a clock is good, fair or poor, and that it does not flicker between two of them. */

import { expect, test } from 'vitest';
import { clockQuality } from '../../../app/core/sync/clock-quality.ts';

test.each([
  [0, 'good'],
  [25, 'good'],
  [25.1, 'fair'],
  [100, 'fair'],
  [100.1, 'poor'],
])('[sync] a clock that has just been found, to %i ms, is %s', (bound, quality) => {
  expect(clockQuality(bound, null)).toBe(quality);
});

test.each([
  ['good', 25, 'good'],
  ['good', 25.1, 'fair'],
  ['good', 100.1, 'poor'],
  ['fair', 20.1, 'fair'],
  ['fair', 20, 'good'],
  ['fair', 100, 'fair'],
  ['fair', 100.1, 'poor'],
  ['poor', 80.1, 'poor'],
  ['poor', 80, 'fair'],
  ['poor', 20.1, 'fair'],
  ['poor', 20, 'good'],
] as const)(
  '[sync] one that was %s, to %i ms, is %s: worse at the limit, better a fifth below it',
  (before, bound, quality) => {
    expect(clockQuality(bound, before)).toBe(quality);
  },
);
