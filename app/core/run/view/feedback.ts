/*
 * The sentence after a command, asked by a screen.
 */

import type { Command, TimedCommand } from '../command/command.ts';
import { labelWithLanes } from '../command/command-label.ts';
import { undoneText } from '../commands/undo.ts';
import { feedbackOf, type TimeText } from '../feedback/feedback.ts';
import { takenBack } from '../undone.ts';
import type { RunView } from '../view.ts';
import { stateOf } from './settled.ts';

/** For a command given at the view's t. Null if the run refuses it. */
export function feedbackAt(before: RunView, command: Command, timeText: TimeText): string | null {
  return feedbackOf(stateOf(before), command, before.t, timeText);
}

/** For the last of these commands, from a view made after it. Null where there is none, and for one taken back since. */
export function feedbackOnLast(after: RunView, commands: readonly TimedCommand[], timeText: TimeText): string | null {
  const last = commands[commands.length - 1];
  if (last?.command.do === 'undo') return feedbackOnUndo(commands);
  const state = stateOf(after);
  if (last?.command.do === 'mark') return feedbackOf(state, last.command, last.at, timeText);
  const entry = last && [...state.undoable].reverse().find(({ at }) => at === last.at);
  return entry ? feedbackOf(entry.before, last.command, last.at, timeText) : null;
}

/** The run after an undo has forgotten what it took back: only the commands tell. */
function feedbackOnUndo(commands: readonly TimedCommand[]): string | null {
  const taken = takenBack(commands).get(commands.length - 1);
  return taken === undefined ? null : undoneText(labelWithLanes(commands[taken]!.command));
}
