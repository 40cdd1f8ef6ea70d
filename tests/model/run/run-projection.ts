/*
 * When the session will end, by the rules of the run: stopped lanes as if resumed now, what waits as
 * if started now, and everything after that by the plan's rule.
 */

import { greatestEnd } from './run-events.ts';
import {
  align,
  currentStretch,
  isStopped,
  LEAD,
  repsFrom,
  scenarioOf,
  tailOfLane,
  type RunState,
} from './run-state.ts';
import { resumeGroups } from './run-stop.ts';
import { beginAfter, stretchLength } from '../timetable/stretches-model.ts';

/** The projection at t of a run that stands as it does at t. The state is used up. */
export function projectedEnd(state: RunState, t: number): number {
  if (state.doneAt !== null) return state.doneAt;
  const tails = state.lanes.map((lane) => (lane.isIn ? tailOfLane(lane) : null));
  let end = state.phase === 'going' ? endOfGoing(state, t) : endOfWaiting(state, t, tails);
  state.stretches.forEach((stretch, index) => {
    const before = state.stretches[index - 1];
    if (index <= state.current || !before) return;
    end = beginAfter(end, stretch, before, scenarioOf(state), (time) => align(state, time));
    end += stretchLength(stretch, tails);
  });
  return end;
}

function endOfGoing(state: RunState, t: number): number {
  resumeGroups(state, state.lanes.filter(isStopped), t);
  return Math.max(greatestEnd(state) ?? t, t);
}

function endOfWaiting(state: RunState, t: number, tails: readonly (number | null)[]): number {
  const stretch = currentStretch(state);
  const begin = stretch.kind === 'swim' ? align(state, t + LEAD) : t;
  const lanes = stretch.lanes.map((_reps, laneIndex) => repsFrom(stretch, laneIndex, state.startFrom));
  return begin + stretchLength({ ...stretch, lanes }, tails);
}
