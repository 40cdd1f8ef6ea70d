/*
 * How long to wait before calling the host again: longer each time, with chance in it so that many
 * screens do not all call at once when the host is back.
 */

/** In ms: the first wait is at most this, each next at most twice the one before. */
const FIRST = 250;

/** attempt: failures in a row before this one, from 0; longest: in ms; chance: 0 up to 1. */
export function backOff(attempt: number, longest: number, chance: number): number {
  return chance * Math.min(longest, FIRST * 2 ** Math.min(attempt, 10));
}
