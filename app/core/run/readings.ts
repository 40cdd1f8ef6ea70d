/*
 * A time of the run as a reading of the clock that a screen shows: a leave is written as what the
 * displayed clock will show at that moment.
 */

import type { Millis } from '../units.ts';
import type { ClockView } from './view.ts';

/** Which clock a screen shows: of the stretch, of the run, or the pool's. */
export type ClockChoice = 'stretch' | 'run' | 'pool';

/**
 * What the clock shows at a time to come (or just past), in ms from its zero. The stretch's clock counts
 * from the T0 ahead or, while waiting, from the last one; null where there is none yet.
 */
export function readingAt(choice: ClockChoice, clock: ClockView, at: Millis): Millis | null {
  if (choice === 'run') return at;
  if (choice === 'pool') return at + clock.poolPhase;
  const zero = clock.t0 ?? clock.from;
  return zero === null ? null : at - zero;
}

/** What the clock shows at t itself: the stretch's runs on from the last T0 until the next has come. */
export function clockReading(choice: ClockChoice, clock: ClockView, t: Millis): Millis | null {
  if (choice !== 'stretch') return readingAt(choice, clock, t);
  return clock.from === null ? null : t - clock.from;
}
