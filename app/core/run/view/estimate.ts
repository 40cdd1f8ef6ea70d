/*
 * Whether the projected end of a run is an estimate.
 */

import { isEstimated } from '../../plan/estimates.ts';
import { waitsFor } from '../../plan/plan.ts';
import type { LaneState } from '../state.ts';
import type { RunView } from '../view.ts';
import { stateOf } from './settled.ts';

/**
 * Whether the projected end of a session rests on an estimate: on what is still to be swum, or on when the coach
 * will give the word for a stretch.
 */
export function endIsEstimate(view: RunView): boolean {
  const state = stateOf(view);
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
  if (leftHere && last !== null && last.rep.estimated) return true;
  for (let at = next; at < reps.length; at++) if (reps[at]!.estimated) return true;
  return false;
}
