/*
 * Stop and the two ways out of it, resume and rejoin.
 */

import type { Command } from './command.ts';
import { lanesOf, toLanes, type Refusal } from '../invent/named-lanes.ts';
import {
  align,
  currentStretch,
  hasPending,
  isGoingPause,
  isGoingSwim,
  isStopped,
  LEAD,
  moveLeaves,
  scenarioOf,
  type LaneState,
  type RunState,
} from './run-state.ts';
import { waitOf } from '../timetable/stretches-model.ts';

/** Holds lanes back and, with none named, what follows. */
export function stop(state: RunState, command: Command, number: number): Refusal {
  if (isGoingPause(state)) {
    if (command.lanes) return 'a talk or break stops for everyone';
    state.isHeld = true;
    return null;
  }
  const canStop = (lane: LaneState): boolean => hasPending(lane) && !isStopped(lane);
  const toStop = lanesOf(state, command).filter(canStop);
  const onlyWhatFollows = !command.lanes && followsByItself(state);
  if (toStop.length === 0 && !onlyWhatFollows) return 'nothing is left to stop';
  for (const lane of toStop) lane.stoppedBy = number;
  if (!command.lanes) state.isHeld = true;
  return null;
}

/** Once the swim that is going ends, were nothing more commanded and nobody stopped, the next stretch would begin. */
function followsByItself(state: RunState): boolean {
  const next = state.stretches[state.current + 1];
  if (!isGoingSwim(state) || state.isHeld || !next) return false;
  return waitOf(next, currentStretch(state), scenarioOf(state)) === 'auto';
}

export function resume(state: RunState, command: Command): Refusal {
  const onlyWhatFollows =
    state.phase === 'going' && state.isHeld && !command.lanes && !state.lanes.some((lane) => isStopped(lane));
  const refusal = onlyWhatFollows
    ? null
    : toLanes(state, command, isStopped, (lanes) => resumeGroups(state, lanes, command.atMs));
  if (refusal === null) state.isHeld = false;
  return refusal;
}

/** Group by group of those that one command stopped: on time where there is time, else on a round reading. */
export function resumeGroups(state: RunState, lanes: readonly LaneState[], t: number): void {
  for (const group of new Set(lanes.map((lane) => lane.stoppedBy))) {
    const together = lanes.filter((lane) => lane.stoppedBy === group);
    const earliest = Math.min(...together.flatMap((lane) => lane.pending.map((pending) => pending.leave)));
    const by = earliest >= t + LEAD ? 0 : align(state, t + LEAD) - earliest;
    for (const lane of together) {
      moveLeaves(lane, by);
      lane.displacement += by;
      lane.stoppedBy = null;
    }
  }
}

/** Back into the old times, without what is due before the lead is over. */
export function rejoin(state: RunState, lanes: readonly LaneState[], t: number): void {
  for (const lane of lanes) {
    lane.pending = lane.pending.filter((pending) => pending.leave >= t + LEAD);
    lane.stoppedBy = null;
    if (hasPending(lane)) state.isHeld = false;
  }
}
