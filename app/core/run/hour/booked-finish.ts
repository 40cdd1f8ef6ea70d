/*
 * The booked finish as a time of the run: a session says only the time of day.
 */

import { DAY, HOUR, MINUTE, type Millis, type MinuteOfDay } from '../../units.ts';

/** A run opened so long after its finish, at the most, is late; one opened later still is for the next day. */
const LATE: Millis = 4 * HOUR;

/** The finish in ms since a run's t = 0, which was at a time of day in ms after midnight; below 0 where it was over by then. */
export function finishAfter(openedAt: Millis, finish: MinuteOfDay): Millis {
  const ahead = (((finish * MINUTE - openedAt) % DAY) + DAY) % DAY;
  return ahead > DAY - LATE ? ahead - DAY : ahead;
}
