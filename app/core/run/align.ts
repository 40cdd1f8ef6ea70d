/*
 * The round readings that starts and restarts fall on.
 */

import type { Millis } from '../units.ts';

/** The warning that a lane gets before it is sent off. */
export const LEAD: Millis = 10_000;

/** A leave due so soon after a command is already on its way to the loudspeaker. */
export const ON_ITS_WAY: Millis = 250;

/** A start, the start or stop before it (one button), and an end that it did not mean, are at least so far apart. */
export const BOUNCE: Millis = 3000;

/** For how long after a command it can be undone, that moment included. */
export const UNDO_FOR: Millis = 10_000;

/** What `align` needs to know of a run: the reading of the pool's clock at t = 0 past the minute, and `start on`. */
export interface Alignment {
  readonly clockPhase: Millis;
  readonly startOn: Millis;
}

/** The least time not below t at which the pool's clock shows a multiple of `start on`. */
export function align({ clockPhase, startOn }: Alignment, t: Millis): Millis {
  const past = (t + clockPhase) % startOn;
  return past === 0 ? t : t + startOn - (past < 0 ? past + startOn : past);
}
