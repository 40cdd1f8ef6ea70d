/*
 * Compares the Stop and the command that a screen knew of with those that hold when its own arrives. Two people may
 * work two screens: a Resume on its way must not lift a Stop that was given meanwhile, nor an Undo take back another
 * command than the one it was meant for.
 */

import type { Millis } from '../../units.ts';
import { settleForCommand } from '../settle.ts';
import type { RunState } from '../state.ts';
import type { Command } from './command.ts';
import { RULES } from './commands.ts';

export interface SeenCommands {
  /** When the last Stop that the screen knew of was given, in ms since the run was opened; null for none. */
  readonly lastStop?: Millis | null | undefined;
  /** The command that its Undo would have taken back; null for none. */
  readonly undoes?: SeenCommand | null | undefined;
}

export interface SeenCommand {
  /** Its name. */
  readonly command: string;
  readonly at: Millis;
}

/** A sentence where another screen was quicker, else null. What the screen did not say is not compared. */
export function overtaken(state: RunState, command: Command, seen: SeenCommands, at: Millis): string | null {
  if (command.do === 'undo') return isAnother(state, seen.undoes) ? OTHER_TO_UNDO : null;
  if (seen.lastStop === undefined || RULES[command.do].liftsStop !== true) return null;
  return isNewerStop(state, command, seen.lastStop ?? -Infinity, at) ? STOPPED_MEANWHILE : null;
}

/** What to send with a command, of the last Stop and the command that can be undone. */
export function seenCommands(
  command: Command,
  {
    stoppedAt,
    undo,
  }: { readonly stoppedAt: Millis; readonly undo: { readonly command: Command; readonly at: Millis } | null },
): SeenCommands {
  if (command.do === 'undo') return { undoes: undo && { command: undo.command.do, at: undo.at } };
  if (RULES[command.do].liftsStop !== true) return {};
  return { lastStop: stoppedAt === -Infinity ? null : stoppedAt };
}

const STOPPED_MEANWHILE =
  'Nothing was changed: lanes were stopped on another screen meanwhile. Look, and give it again.';

const OTHER_TO_UNDO =
  'Nothing was undone: another command was given meanwhile, and Undo would have taken back that one.';

function isAnother({ undoable }: RunState, seen: SeenCommands['undoes']): boolean {
  const last = undoable[undoable.length - 1];
  if (seen === undefined || !last) return false;
  return seen === null || last.at !== seen.at || last.command.do !== seen.command;
}

/** Whether a Stop after the one that was seen still holds a lane that the command is for, or what follows. */
function isNewerStop(state: RunState, command: Command, seen: Millis, at: Millis): boolean {
  if (state.stoppedAt <= seen) return false;
  const lanes = 'lanes' in command ? command.lanes : undefined;
  const now = settleForCommand(state, at);
  if (lanes === undefined) return true;
  return now.lanes.some(({ number, stoppedBy }) => lanes.includes(number) && stoppedBy === now.stops);
}
