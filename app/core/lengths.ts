/*
 * Distances against the pool's length: whole lengths or not, and how many. A pool of 33.33 m is swum three times for 100 m, so half a percent is not looked at.
 */

import type { Hundredths, Tenths } from './units.ts';
import { floorDivide } from './ratio.ts';

/** How many times the difference to a whole number of lengths must fit into that number: half a percent. */
const TOLERANCE = 200;

/** Whether a distance is a whole number of lengths, 1 or more, within half a percent of the number. */
export function isWholeLengths(distance: Tenths, pool: Hundredths): boolean {
  const below = floorDivide(distance * 10, pool);
  return isNear(distance, below, pool) || isNear(distance, below + 1, pool);
}

/** The whole number of lengths nearest to a distance, a half counting up. */
export function roundedLengths(distance: Tenths, pool: Hundredths): number {
  return floorDivide(distance * 20 + pool, 2 * pool);
}

function isNear(distance: Tenths, lengths: number, pool: Hundredths): boolean {
  return lengths >= 1 && Math.abs(distance * 10 - lengths * pool) * TOLERANCE <= lengths * pool;
}
