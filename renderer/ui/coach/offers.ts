/*
 * What the coach can do at a moment, and why not what they cannot: each command is tried on the run
 * by the very rules that the host will hold it to.
 */

import { apply } from '../../../app/core/run/fold.ts';
import { readCommand, type Command } from '../../../app/core/run/command.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { isPending, type RunState } from '../../../app/core/run/state.ts';
import type { Millis } from '../../../app/core/units.ts';

/** null where it can be done, else the sentence that says why not. */
export type Refusal = string | null;

/** Why a command would be refused now. */
export function refusalOf(state: RunState, command: Command, t: Millis): Refusal {
  const read = readCommand({ ...command });
  if (!read.ok) return read.faults;
  const answer = apply(state, command, t);
  return answer.ok ? null : answer.why;
}

/** The one action that the moment asks for. */
export type Primary = 'start' | 'stop' | 'resume' | 'finish';

/**
 * Waiting: Start. Going: Stop as long as a lane has something to stop, Resume where all that is left
 * stands still, and Start in a talk or break or where everyone is through, or Finish where nothing follows.
 * A choice of stopped lanes makes it Resume, so that the same key lets go what it has stopped.
 */
export function primaryOf({ state }: Pick<RunView, 'state'>, chosen: readonly number[]): Primary {
  if (state.phase !== 'going') return 'start';
  if (state.index === state.stretches.length - 1 && !state.lanes.some(isPending)) return 'finish';
  const lanes = state.lanes.filter((lane) => chosen.length === 0 || chosen.includes(lane.number));
  const open = lanes.filter(isPending);
  if (open.some((lane) => lane.stoppedBy === null)) return 'stop';
  return open.length > 0 ? 'resume' : 'start';
}

/** What Space and the clicker's blank-screen key mean: never a start. */
export function stopOrResume(view: Pick<RunView, 'state'>, chosen: readonly number[]): 'stop' | 'resume' {
  return primaryOf(view, chosen) === 'resume' ? 'resume' : 'stop';
}

/** Whether a Stop would hold what follows a talk or break that is going. */
export function canHoldBreak({ state, phase, stretch, following, followingWaits }: RunView): boolean {
  return phase === 'going' && stretch.kind !== 'swim' && following !== null && !followingWaits && !state.heldAfter;
}
