/*
 * Distances and the pool's length: whether a distance is whole lengths, and how many. Three lengths of a 33.33 m pool
 * count as 100 m, so a difference of half a percent is ignored.
 */

import type { Hundredths, Tenths } from './units.ts';
import { floorDivide } from './ratio.ts';

/** A distance may differ from whole lengths by one part in this many: half a percent. */
const TOLERANCE = 200;

/** Whether a distance is a whole number of lengths, 1 or more, to within half a percent. */
export function isWholeLengths(distance: Tenths, pool: Hundredths): boolean {
  const below = floorDivide(distance * 10, pool);
  return isNear(distance, below, pool) || isNear(distance, below + 1, pool);
}

/** The whole number of lengths nearest to a distance; half a length is rounded up. */
export function roundedLengths(distance: Tenths, pool: Hundredths): number {
  return floorDivide(distance * 20 + pool, 2 * pool);
}

function isNear(distance: Tenths, lengths: number, pool: Hundredths): boolean {
  return lengths >= 1 && Math.abs(distance * 10 - lengths * pool) * TOLERANCE <= lengths * pool;
}
