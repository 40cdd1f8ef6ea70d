/*
 * `undo`: takes the last command back, if swimmers have not acted on it yet. If they have, a command that took leaves
 * away is treated as a stop that is resumed now; any other stays.
 */

import type { Millis } from '../../units.ts';
import { ON_ITS_WAY, UNDO_FOR } from '../align.ts';
import { done, no, type Outcome } from '../command/answer.ts';
import type { Rule } from '../command/command-rule.ts';
import type { CommandWords, Told } from '../command/command-words.ts';
import { leavesOf, sameLeave, type Leave } from '../record.ts';
import { settle, settleForCommand } from '../settle.ts';
import type { RunState, Undoable } from '../state.ts';
import { resumeLanes } from './start-stop/resume.ts';
import { stopped as asStopped } from './start-stop/stop.ts';

export const undo: Rule<'undo'> = {
  fields: {},
  carryOut: (now, _, at, before) => undone(before, now, at),
  steers: false,
  touches: null,
};

export const undoWords = {
  label: 'Undo',
  actions: {
    undo: {
      label: 'Undo',
      key: 'U',
      does: '',
      pressed: false,
      byChoice: false,
      command: () => ({ do: 'undo' }),
    },
  },
  says: undoText,
} satisfies CommandWords<'undo'>;

/** `state` is the run as the last command left it; `now` is the same run at t, with what is on its way to the loudspeaker. */
function undone(state: RunState, now: RunState, t: Millis): Outcome {
  const undoable = state.undoable[state.undoable.length - 1];
  if (!undoable || t > undoable.at + UNDO_FOR) {
    return no('There is nothing to undo: the last command was more than 10 s ago, or there was none.');
  }
  const { before, at } = undoable;
  const happened = leavesOf(settle(state, t + ON_ITS_WAY), at);
  if (sameLeaves(happened, leavesOf(settle(before, t + ON_ITS_WAY), at))) {
    return done({ ...settle(before, t), marks: now.marks, undoable: state.undoable.slice(0, -1) });
  }
  const resumed = asIfStopped(undoable, t);
  if (resumed) {
    const kept = leavesOf(resumed, at);
    const noneIsLost = happened.every((leave) => kept.some((other) => sameLeave(leave, other)));
    if (noneIsLost) return done({ ...resumed, marks: now.marks });
  }
  return no(
    happened.length > 0
      ? 'Swimmers have left since then: what they swam cannot be undone.'
      : 'Too late to undo: without that command, lanes would already have left.',
  );
}

/** The state without the commands that are too old to undo at t; the same object if there are none. */
export function withoutOldUndos(state: RunState, t: Millis): RunState {
  const undoable = state.undoable.filter(({ at }) => t <= at + UNDO_FOR);
  return undoable.length === state.undoable.length ? state : { ...state, undoable };
}

/** The state at t if the command had been a stop of the same lanes, resumed now; null if it cannot be treated so. */
function asIfStopped({ command, takesLeavesAway, at, before }: Undoable, t: Millis): RunState | null {
  if (!takesLeavesAway) return null;
  const then = settleForCommand(before, at);
  const outcome = asStopped(then, 'lanes' in command ? command.lanes : undefined, at);
  if (!outcome.ok) return null;
  const { stops } = outcome.state;
  const stopped = settleForCommand({ ...outcome.state, commandAt: at, stoppedAt: at, steeredAt: at }, t);
  const chosen = new Set<number>();
  stopped.lanes.forEach((lane, index) => {
    if (lane.stoppedBy === stops) chosen.add(index);
  });
  if (chosen.size === 0) return null;
  const resumed = resumeLanes(stopped, chosen, t);
  return { ...resumed, heldAfter: false, commandAt: t, steeredAt: t, resumedAt: t, undoable: [] };
}

function sameLeaves(a: readonly Leave[], b: readonly Leave[]): boolean {
  return a.length === b.length && a.every((leave, index) => sameLeave(leave, b[index]!));
}

function undoText({ before, label }: Told): string {
  return undoneText(label(before.undoable[before.undoable.length - 1]!.command));
}

/** `label`: what the coach calls the command that was taken back. */
export function undoneText(label: string): string {
  return `Undid ${label}.`;
}
