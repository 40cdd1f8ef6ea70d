/*
 * What of a run rests on an estimate.
 */

import { isEstimated } from '../plan/estimates.ts';
import { waitsFor } from '../plan/plan.ts';
import type { LaneState, RunState } from './state.ts';

/**
 * Whether the projected end of a session rests on an estimate: on what is still to be swum, or on when the coach
 * will give the word for a stretch.
 */
export function endIsEstimate(state: RunState): boolean {
  const { stretches, index, phase, heldAfter, plan } = state;
  if (phase === 'done') return false;
  if (phase === 'waiting') return true;
  if (heldAfter || state.lanes.some((lane) => lane.stoppedBy !== null || laneRestsOnEstimate(lane))) return true;
  return stretches.some(
    (stretch, at) =>
      at > index &&
      (isEstimated(stretch) || waitsFor(stretch, stretches[at - 1], plan.session.between.auto) === 'call'),
  );
}

/** When the lane will be through with its stretch: by what it is at, and what it has left. */
function laneRestsOnEstimate({ takesPart, leftHere, last, reps, next }: LaneState): boolean {
  if (!takesPart) return false;
  if (leftHere && last !== null && last.rep.set.estimated) return true;
  for (let at = next; at < reps.length; at++) if (reps[at]!.set.estimated) return true;
  return false;
}
