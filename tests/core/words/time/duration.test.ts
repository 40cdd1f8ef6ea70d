/*
 * How long a part or a session takes, in words.
 */

import { expect, test } from 'vitest';
import { durationText } from '../../../../app/core/words/time/duration.ts';

test.each([
  [1_185_000, '19 min 45 s'],
  [1_184_001, '19 min 45 s'],
  [1_200_000, '20 min'],
  [45_000, '45 s'],
  [3_600_000, '1 h'],
  [3_605_000, '1 h 5 s'],
  [3_750_000, '1 h 2 min 30 s'],
  [0, '0 s'],
  [-5_000, '0 s'],
])('a length of %i ms is said with its units, never as a clock reads: %s', (time, text) => {
  expect(durationText(time)).toBe(text);
});
