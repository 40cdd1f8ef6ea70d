/*
 * How many swimmers fit in a lane that is swum in a circle: the last leaves before the lead is back after two lengths.
 * Published with two cases (check-values 3D); it says nothing of a lane's width, or of who can pass whom.
 */

import { floorDivide, multiply, ratio, type Ratio } from '../ratio.ts';
import type { Hundredths, Millis } from '../units.ts';

/** At a pace per 100, in ms, with so much between one swimmer and the next. */
export function swimmersInCircle(length: Hundredths, pace: Ratio, gap: Millis): number {
  const back = multiply(pace, ratio(2 * length, 100 * 100));
  return floorDivide(back.num, back.den * gap);
}
