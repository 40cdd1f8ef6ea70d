/*
 * Times taken by hand: what several watches come to, and a time as a pace. They are good to tenths, and shown so.
 */

import type { Millis, Tenths } from '../../units.ts';

/**
 * One to three watches: two of three that agree, or else the one in the middle; the average of two. By World Aquatics
 * SW 11.3; the third digit behind the second is not used (SW 11.2).
 */
export function handTime(watches: readonly Millis[]): Millis {
  const [first, second, third] = watches.map(toHundredth).sort((a, b) => a - b);
  if (first === undefined) throw new Error('a time needs a watch');
  if (second === undefined) return first;
  return third === undefined ? toHundredth((first + second) / 2) : second;
}

function toHundredth(time: Millis): Millis {
  return Math.floor(time / 10) * 10;
}

/** As it is shown: less than a tenth is cut off. What stands beside it is worked out of this, so that they agree. */
export function toTenth(time: Millis): Millis {
  return Math.floor(time / 100) * 100;
}

/** For 100 of the pool's unit, whole ms, a half rounded up; null for a swim by time, which has no distance. */
export function paceOf(time: Millis, distance: Tenths): Millis | null {
  return distance > 0 ? Math.floor((time * 2000 + distance) / (2 * distance)) : null;
}

/**
 * How much slower, a 100, the second half of a set was swum than the first (faster is below 0), by the paces of its
 * reps in order; with an odd number the one in the middle counts for neither. null for fewer than two.
 */
export function fadeOf(paces: readonly Millis[]): Millis | null {
  const half = Math.floor(paces.length / 2);
  if (half === 0) return null;
  const sum = (list: readonly Millis[]): Millis => list.reduce((total, pace) => total + pace, 0);
  return Math.round((sum(paces.slice(-half)) - sum(paces.slice(0, half))) / half);
}
