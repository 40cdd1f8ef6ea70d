/*
 * How long to wait before calling the host again: longer each time, with chance in it so that many
 * screens do not all call at once when the host is back.
 */

/**
 * In ms: the first wait is at most this, each next at most twice the one before. However long the host was
 * gone, a screen has the truth within two seconds of its coming back, so the longest leaves time for that.
 */
const FIRST = 250;
const LONGEST = 1500;

/** attempt: failures in a row before this one, from 0; chance: 0 up to 1. */
export function backOff(attempt: number, chance: number): number {
  return chance * Math.min(LONGEST, FIRST * 2 ** Math.min(attempt, 10));
}
