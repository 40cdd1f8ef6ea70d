/*
 * The round readings that starts and restarts fall on.
 */

import type { Millis } from '../units.ts';

/** The warning that a lane gets before it is sent off. */
export const LEAD: Millis = 10_000;

/** A leave due within this time after a command is already on its way to the loudspeaker. */
export const ON_ITS_WAY: Millis = 250;

/**
 * Start and Stop are one button, so a Start this soon after either is taken for a bounce. So is a move on or a
 * restart this soon after a stretch has ended by itself.
 */
export const BOUNCE: Millis = 3000;

/** How long a command can be undone, the last millisecond included. */
export const UNDO_FOR: Millis = 10_000;

/**
 * What `align` needs to know of a run. clockPhase: what the pool's clock shows past the full minute at t = 0, from 0
 * to 59 999 ms. startOn: the session's `start on`, in ms.
 */
export interface Alignment {
  readonly clockPhase: Millis;
  readonly startOn: Millis;
}

/** The least time not below t at which the pool's clock shows a multiple of `start on`. */
export function align({ clockPhase, startOn }: Alignment, t: Millis): Millis {
  const past = (t + clockPhase) % startOn;
  return past === 0 ? t : t + startOn - (past < 0 ? past + startOn : past);
}
