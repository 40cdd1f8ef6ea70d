/*
 * `undo`: the run as if its last command had not been given, where swimmers have not acted on it; else,
 * for a command that took leaves away, as if it had been a stop that is resumed now.
 */

import type { Millis } from '../units.ts';
import { ON_ITS_WAY, UNDO_FOR } from './align.ts';
import { accepted, refused, type Answer } from './answer.ts';
import type { Command } from './command.ts';
import { isStopped, resumeLanes, stop } from './lane-command.ts';
import { leavesOf, sameLeave, type Leave } from './record.ts';
import { settle, settleForCommand } from './settle.ts';
import { isPending, type RunState, type Undoable } from './state.ts';

/** `state` as it was before the undo, `now` the same with everything up to t (and on its way) having happened. */
export function undo(state: RunState, now: RunState, t: Millis): Answer {
  const undoable = state.undoable[state.undoable.length - 1];
  if (!undoable || t > undoable.at + UNDO_FOR) {
    return refused(state, 'There is nothing to undo: the last command was more than 10 s ago, or there was none.');
  }
  const { before, at } = undoable;
  const happened = leavesOf(settle(state, t + ON_ITS_WAY), at);
  if (sameLeaves(happened, leavesOf(settle(before, t + ON_ITS_WAY), at))) {
    return accepted({ ...settle(before, t), marks: now.marks, undoable: state.undoable.slice(0, -1) });
  }
  const resumed = asIfStopped(undoable, t);
  if (!resumed) return refused(state, 'Swimmers have left since: what they did is not undone.');
  const kept = leavesOf(resumed, at);
  if (!happened.every((leave) => kept.some((other) => sameLeave(leave, other)))) {
    return refused(state, 'Swimmers have left since: what they did is not undone.');
  }
  return accepted({ ...resumed, marks: now.marks });
}

/** The state without what no undo from t on can take back; the same one where there is nothing of that. */
export function withoutOldUndos(state: RunState, t: Millis): RunState {
  const undoable = state.undoable.filter(({ at }) => t <= at + UNDO_FOR);
  return undoable.length === state.undoable.length ? state : { ...state, undoable };
}

/** The state at t had the command been a stop of the same lanes, resumed now; null where it cannot stand for one. */
function asIfStopped({ command, at, before }: Undoable, t: Millis): RunState | null {
  if (!takesLeavesAway(command)) return null;
  const then = settleForCommand(before, at);
  const outcome = stop(then, 'lanes' in command ? command.lanes : undefined);
  if (!outcome.ok) return null;
  const { stops } = outcome.state;
  const stopped = settleForCommand({ ...outcome.state, commandAt: at, stoppedAt: at, steeredAt: at }, t);
  const chosen = new Set<number>();
  stopped.lanes.forEach((lane, index) => {
    if (isStopped(lane) && lane.stoppedBy === stops && isPending(lane)) chosen.add(index);
  });
  if (chosen.size === 0) return null;
  const resumed = resumeLanes(stopped, chosen, t);
  return { ...resumed, heldAfter: false, commandAt: t, steeredAt: t, resumedAt: t, undoable: [] };
}

function takesLeavesAway({ do: name }: Command): boolean {
  return ['stop', 'move-on', 'restart', 'go-to', 'lane-out', 'finish'].includes(name);
}

function sameLeaves(a: readonly Leave[], b: readonly Leave[]): boolean {
  return a.length === b.length && a.every((leave, index) => sameLeave(leave, b[index]!));
}
