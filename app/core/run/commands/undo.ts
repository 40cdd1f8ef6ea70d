/*
 * `undo`: the run as if its last command had not been given, where swimmers have not acted on it; else,
 * for a command that took leaves away, as if it had been a stop that is resumed now.
 */

import type { Millis } from '../../units.ts';
import { ON_ITS_WAY, UNDO_FOR } from '../align.ts';
import { done, no, type Outcome } from '../answer.ts';
import type { Rule } from '../command-rule.ts';
import type { CommandWords, Told } from '../command-words.ts';
import { leavesOf, sameLeave, type Leave } from '../record.ts';
import { settle, settleForCommand } from '../settle.ts';
import type { RunState, Undoable } from '../state.ts';
import { resumeLanes } from './resume.ts';
import { stopped as asStopped } from './stop.ts';

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

/** `state` as it was before the undo, `now` the same with everything up to t (and on its way) having happened. */
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
      ? 'Swimmers have left since: what they did is not undone.'
      : 'Too late: without it lanes would have left already.',
  );
}

/** The state without what no undo from t on can take back; the same one where there is nothing of that. */
export function withoutOldUndos(state: RunState, t: Millis): RunState {
  const undoable = state.undoable.filter(({ at }) => t <= at + UNDO_FOR);
  return undoable.length === state.undoable.length ? state : { ...state, undoable };
}

/** The state at t had the command been a stop of the same lanes, resumed now; null where it cannot stand for one. */
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
  const last = before.undoable[before.undoable.length - 1];
  return last ? `Undone: ${label(last.command)}.` : 'Undone.';
}
