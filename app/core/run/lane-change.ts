/*
 * What commands about single lanes share: what holds a lane, what moves it, and what would hurry it.
 */

import type { Millis } from '../units.ts';
import { LEAD } from './align.ts';
import { done, no, type Lacking, type Outcome } from './answer.ts';
import { isPending, nextLeave, type LaneState, type RunState } from './state.ts';

export const LEFT: Lacking = { none: 'has a rep still to leave', one: 'has no rep still to leave' };

export const NOT_GOING = "Waiting for the coach's word: no lead is to leave.";

export const STOPPED: Lacking = { none: 'is stopped', one: 'is not stopped' };

/**
 * Refuses a change that would send a lane that is not stopped off sooner than it was shown, with less
 * than the lead of warning.
 */
export function unlessTooSoon(before: RunState, after: RunState, t: Millis): Outcome {
  const hurried = after.lanes.find(
    (lane, index) =>
      lane.stoppedBy === null && nextLeave(lane) < nextLeave(before.lanes[index]!) && nextLeave(lane) < t + LEAD,
  );
  return hurried ? no(`Too soon: lane ${hurried.number} would get less than 10 s of warning.`) : done(after);
}

/**
 * The number of the stop that a lane with nothing pending joins when it gets reps: the last one's, where
 * it holds everyone who has something pending, or a Stop holds what follows; null where it goes off.
 */
export function stopToJoin(state: RunState): number | null {
  const pending = state.lanes.filter(isPending);
  if (pending.length === 0) return state.heldAfter ? state.stops : null;
  return pending.every(isStopped) ? Math.max(...pending.map((lane) => lane.stoppedBy!)) : null;
}

export function isStopped(lane: LaneState): boolean {
  return lane.stoppedBy !== null;
}

/** The lane with everything it has pending moved. */
export function displaced(lane: LaneState, by: Millis): LaneState {
  return { ...lane, origin: lane.origin + by, end: lane.end + by, displacement: lane.displacement + by };
}
