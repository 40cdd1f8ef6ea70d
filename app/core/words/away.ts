/*
 * A time in which the program was not running, in sentences: how long it was, and what was not called in it.
 */

import { followersLeaving, type Away, type Leave } from '../run/record.ts';
import type { Millis } from '../units.ts';
import { lanesNamed } from './lanes.ts';
import { leavesText } from './leaves.ts';
import { spanText } from './time/reading.ts';

/** The most sets with leaves not called that are named; more would hide the first of them. */
const MOST_TOLD = 6;

/** Without its full stop, so that it may be a part of a sentence. */
export function notRunningText(away: Millis): string {
  return `Lanecall was not running for ${spanText(away)}`;
}

/** leaves: all of the run up to the end of that time. */
export function notCalledText(leaves: readonly Leave[], { from, to }: Away): string {
  const missed = leaves.filter(({ at }) => at > from && at <= to);
  if (missed.length > 0) return `Not called in that time: ${leavesText(missed, MOST_TOLD)}.`;
  const lanes = followersLeaving(leaves, { from, to });
  if (lanes.length === 0) return 'No leave was due in that time.';
  return `No lane was due to begin a rep in that time, but in ${lanesNamed(lanes)} swimmers behind their lead were due to leave.`;
}
