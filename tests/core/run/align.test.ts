/*
 * The round readings that starts fall on, by the pool's clock, also before the run was opened.
 */

import { expect, test } from 'vitest';
import { align } from '../../../app/core/run/align.ts';

test.each([
  [0, 5000, 0, 0],
  [0, 5000, 1, 5000],
  [0, 5000, 5000, 5000],
  [7000, 5000, 0, 3000],
  [7000, 5000, 3000, 3000],
  [7000, 60_000, 10_000, 53_000],
  [7000, 5000, -11_000, -7000],
  [7000, 5000, -12_000, -12_000],
  [0, 5000, -1, 0],
])(
  'with the pool’s clock %i ms past the minute and starts on each %i ms, from %i the next is %i',
  (clockPhase, startOn, from, next) => {
    expect(align({ clockPhase, startOn }, from)).toBeCloseTo(next, 9);
  },
);
