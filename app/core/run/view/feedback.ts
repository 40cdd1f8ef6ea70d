/*
 * The sentence after a command, asked by a screen.
 */

import type { Command, TimedCommand } from '../command/command.ts';
import { feedbackOf, type TimeText } from '../feedback/feedback.ts';
import type { RunView } from '../view.ts';
import { stateOf } from './settled.ts';

/** For a command given at the view's t. Null if the run refuses it. */
export function feedbackAt(before: RunView, command: Command, timeText: TimeText): string | null {
  return feedbackOf(stateOf(before), command, before.t, timeText);
}

/** For the last command of a run, from a view made right after it. Null for one that cannot be undone, such as a mark. */
export function feedbackOnLast(after: RunView, { command, at }: TimedCommand, timeText: TimeText): string | null {
  const { undoable } = stateOf(after);
  const entry = undoable[undoable.length - 1];
  return entry?.at === at ? feedbackOf(entry.before, command, at, timeText) : null;
}
