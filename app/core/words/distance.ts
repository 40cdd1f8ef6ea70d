/*
 * Distances in the pool's unit.
 */

import { floorDivide } from '../ratio.ts';
import type { Hundredths, LengthUnit, Tenths } from '../units.ts';

/** With its one decimal only where it has one: `62.5`, `100`. */
export function distanceText(distance: Tenths): string {
  const whole = floorDivide(distance, 10);
  const tenth = distance - whole * 10;
  return tenth === 0 ? `${whole}` : `${whole}.${tenth}`;
}

/** "100 m", "62.5 yd". */
export function distanceIn(distance: Tenths, unit: LengthUnit): string {
  return `${distanceText(distance)} ${unit}`;
}

/** "25 m", "33.33 m": the pool's own length, or several of them. */
export function poolText(length: Hundredths, unit: LengthUnit): string {
  return `${length / 100} ${unit}`;
}
