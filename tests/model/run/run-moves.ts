/*
 * The commands that move through the session: move on, restart, go to.
 */

import type { Command } from './command.ts';
import type { Refusal } from '../invent/named-lanes.ts';
import { dropTheEmpty } from './run-cut.ts';
import { beginStretch, waitAt } from './run-events.ts';
import { currentStretch, scenarioOf, type RunState, type StartingPlace } from './run-state.ts';
import { isLeftWithNothing, waitOf, type ModelRep } from '../timetable/stretches-model.ts';

const END_GUARD = 3000;

export function moveOn(state: RunState, t: number): Refusal {
  if (justEnded(state, t)) return 'a stretch has just ended';
  const stretch = currentStretch(state);
  const next = state.stretches[state.current + 1];
  const goesOnAtOnce =
    state.phase === 'going' &&
    next !== undefined &&
    next.kind !== 'swim' &&
    next.partIndex === stretch.partIndex &&
    waitOf(next, stretch, scenarioOf(state)) === 'auto';
  if (goesOnAtOnce) beginStretch(state, state.current + 1, t);
  else waitAt(state, state.current + 1, t);
  return null;
}

export function restart(state: RunState, t: number): Refusal {
  if (justEnded(state, t)) return 'a stretch has just ended';
  if (state.phase === 'waiting' && state.current === 0) return 'nothing comes before the first';
  const index = state.phase === 'going' ? state.current : state.current - 1;
  // A stretch that was under way when cuts left nothing of it goes once it is no longer begun.
  const again = state.stretches[index];
  if (again && isLeftWithNothing(again)) state.stretches.splice(index, 1);
  waitAt(state, index, t);
  return null;
}

export function goTo(state: RunState, command: Command): Refusal {
  const isIt = (rep: ModelRep): boolean => isSameRep(rep, command.line ?? 0, command.rounds ?? [], command.rep ?? 0);
  const index = state.stretches.findIndex((stretch) => stretch.lanes.some((reps) => reps.some(isIt)));
  const rep = state.stretches[index]?.lanes.flat().find(isIt);
  if (!rep) return 'no such rep';
  waitAt(state, index, command.atMs);
  state.startFrom = placeOf(rep);
  // One that was under way when cuts left nothing of it is to come again, if the place is before it.
  dropTheEmpty(state, index, command.atMs);
  return null;
}

export function isSameRep(rep: ModelRep, line: number, rounds: readonly number[], number: number): boolean {
  const inRounds = JSON.stringify(rep.rounds.map(({ round }) => round));
  return rep.line === line && rep.rep === number && inRounds === JSON.stringify(rounds);
}

export function placeOf(rep: ModelRep): StartingPlace {
  return { line: rep.line, rounds: rep.rounds.map(({ round }) => round), rep: rep.rep, place: rep.place };
}

function justEnded(state: RunState, t: number): boolean {
  return state.lastEndAt !== null && t - state.lastEndAt < END_GUARD;
}
