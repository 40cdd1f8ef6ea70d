/*
 * What would come of a command that is given at the view's t: it is carried out on a run that is thrown away.
 */

import { takesBegun } from '../cuts/begun.ts';
import type { Command } from '../command/command.ts';
import { apply } from '../fold.ts';
import { readCommand } from '../command/read-command.ts';
import { view, type RunView } from '../view.ts';
import { stateOf } from './settled.ts';

export type Trial = { readonly ok: true; readonly after: RunView } | { readonly ok: false; readonly why: string };

/** The view right after the command; or why the run refuses it, in one sentence. A field out of range is refused too. */
export function tried(before: RunView, command: Command): Trial {
  const read = readCommand({ ...command });
  if (!read.ok) return { ok: false, why: read.faults };
  const answer = apply(stateOf(before), command, before.t);
  return answer.ok ? { ok: true, after: view(answer.state, before.t) } : { ok: false, why: answer.why };
}

/** Whether a Start is for this moment, be it that one so soon after a Start or Stop is not taken yet. */
export function startFollows(now: RunView): boolean {
  return apply({ ...stateOf(now), startedAt: -Infinity, stoppedAt: -Infinity }, { do: 'start' }, now.t).ok;
}

/** Whether a cut of a line that led from one view to another takes what is left of a round, or of a rep, that a lane has begun. */
export function cutTakesBegun(before: RunView, after: RunView, line: number): boolean {
  return takesBegun(stateOf(before), stateOf(after), line);
}
