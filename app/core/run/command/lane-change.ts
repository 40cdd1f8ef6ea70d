/*
 * What the commands about single lanes share: words for their refusals, moving a lane, joining a stop, and the
 * refusal of a leave that would come too soon.
 */

import type { Millis } from '../../units.ts';
import { LEAD } from '../align.ts';
import { done, no, type Lacking, type Outcome } from './answer.ts';
import { isPending, nextLeave, type LaneState, type RunState } from '../state.ts';

export const LEFT: Lacking = { none: 'has any reps to come', one: 'has no reps to come' };

export const NOT_GOING = 'The run is waiting for Start: no lead is due to leave.';

export const STOPPED: Lacking = { none: 'is stopped', one: 'is not stopped' };

/**
 * Refuses a change that would send a lane that is not stopped off sooner than shown, with less than LEAD of warning.
 */
export function unlessTooSoon(before: RunState, after: RunState, t: Millis): Outcome {
  const hurried = after.lanes.find(
    (lane, index) =>
      lane.stoppedBy === null && nextLeave(lane) < nextLeave(before.lanes[index]!) && nextLeave(lane) < t + LEAD,
  );
  return hurried ? no(`Too soon: lane ${hurried.number} would get less than 10 s of warning.`) : done(after);
}

/**
 * The number of the stop that a lane with nothing pending joins when it gets reps; null if it will leave. It joins
 * the last stop if every pending lane is stopped, or if nothing is pending and a Stop holds what follows.
 */
export function stopToJoin(state: RunState): number | null {
  const pending = state.lanes.filter(isPending);
  if (pending.length === 0) return state.heldAfter ? state.stops : null;
  return pending.every(isStopped) ? Math.max(...pending.map((lane) => lane.stoppedBy!)) : null;
}

export function isStopped(lane: LaneState): boolean {
  return lane.stoppedBy !== null;
}

/** The lane with its pending leaves, its end and its displacement moved. */
export function displaced(lane: LaneState, by: Millis): LaneState {
  return { ...lane, origin: lane.origin + by, end: lane.end + by, displacement: lane.displacement + by };
}
