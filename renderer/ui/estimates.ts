/*
 * What is an estimate on a screen, and how it is marked, the same on all of them. A leave is none: the program
 * sends the lane off at that reading, whatever its interval was worked out from.
 */

import { reading } from '../../app/core/reading.ts';
import { isEstimated } from '../../app/core/plan/estimates.ts';
import { waitsFor, type Rep, type Stretch } from '../../app/core/plan/plan.ts';
import type { LaneState, RunState } from '../../app/core/run/state.ts';

/** In front of a text that is an estimate; nothing in front of others. */
export function about(isEstimate: boolean): string {
  return isEstimate ? '≈ ' : '';
}

/** "1:35", "≈ 1:35" of a rest or an untimed set. */
export function intervalText({ interval, set }: Pick<Rep, 'interval' | 'set'>): string {
  return `${about(set.estimated)}${reading(interval)}`;
}

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

/** Whether what a cut of a line saves is an estimate: of a set on that line, or in the rounds on it. */
export function lineIsEstimate(stretches: readonly Stretch[], line: number): boolean {
  return stretches.some(({ lanes }) =>
    lanes.some(({ reps }) =>
      reps.some(({ set }) => set.estimated && (set.line === line || set.rounds.some((round) => round.line === line))),
    ),
  );
}
