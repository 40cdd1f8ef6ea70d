/*
 * Why a command cannot be given at a moment: it is tried on the run by the very rules that the host will hold it
 * to, and by what a hand means by it.
 */

import { apply } from '../../../app/core/run/fold.ts';
import type { Command } from '../../../app/core/run/command.ts';
import { RULES } from '../../../app/core/run/commands.ts';
import { readCommand } from '../../../app/core/run/read-command.ts';
import { isPending, type RunState } from '../../../app/core/run/state.ts';
import type { Millis } from '../../../app/core/units.ts';
import { commandLabel } from './actions.ts';

/** null where it can be done, else the sentence that says why not. */
export type Refusal = string | null;

/**
 * So soon after a Stop the Resume or Rejoin that has taken its place is not meant, in ms: whoever presses Stop twice
 * in fright, or with a wet finger, means Stop. A second press comes within a second; whoever sees that a Stop
 * was an accident needs longer than that to reach for Resume, and has Undo at once. A Stop is never kept waiting.
 */
export const STOP_SETTLES: Millis = 1000;

/** Whether lanes were stopped so short a time ago that none of them is sent on yet. */
export function stopSettles({ stoppedAt }: Pick<RunState, 'stoppedAt'>, t: Millis): boolean {
  return t < stoppedAt + STOP_SETTLES;
}

/** Why a command would be refused now, by the run or by what a hand means by it. */
export function refusalOf(state: RunState, command: Command, t: Millis): Refusal {
  const read = readCommand({ ...command });
  if (!read.ok) return read.faults;
  const answer = apply(state, command, t);
  if (!answer.ok) return answer.why;
  return RULES[command.do].sign === 'resume' ? unmeant(state, answer.state, command, t) : null;
}

/** Of a Resume or Rejoin that the run would take. */
function unmeant(before: RunState, after: RunState, command: Command, t: Millis): Refusal {
  const lanes = 'lanes' in command ? command.lanes : undefined;
  const isOfLastStop = (number: number): boolean =>
    before.lanes.some((lane) => lane.number === number && lane.stoppedBy === before.stops);
  if (stopSettles(before, t) && (!lanes || lanes.some(isOfLastStop))) {
    return `Stopped. ${commandLabel(command)} is taken 1 s after a Stop; Undo takes the Stop back at once.`;
  }
  const freed = after.lanes.filter(
    ({ stoppedBy }, index) => stoppedBy === null && before.lanes[index]!.stoppedBy !== null,
  );
  const isOver = command.do === 'rejoin' && freed.length > 0 && !freed.some(isPending);
  return isOver ? 'Nothing is left of the old times: use Resume.' : null;
}
