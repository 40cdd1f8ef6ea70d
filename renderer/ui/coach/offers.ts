/*
 * What the coach can do at a moment, and why not what they cannot: each command is tried on the run
 * by the very rules that the host will hold it to.
 */

import { apply } from '../../../app/core/run/fold.ts';
import type { Command } from '../../../app/core/run/command.ts';
import { readCommand } from '../../../app/core/run/read-command.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import type { RunState } from '../../../app/core/run/state.ts';
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

/** Whether a Start is for this moment, be it that one so soon after a Start or Stop is not taken yet. */
export function startFollows({ state, t }: Pick<RunView, 'state' | 't'>): boolean {
  return refusalOf({ ...state, startedAt: -Infinity, stoppedAt: -Infinity }, { do: 'start' }, t) === null;
}
