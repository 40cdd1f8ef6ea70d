/*
 * The commands of a run before its first start. Until then the run can be opened again with the pool's clock matched
 * anew, and these commands are given to the new run too.
 */

import { RULES } from './command/commands.ts';
import { isCommandName } from './command/read-command.ts';

interface Given {
  readonly command: { readonly do?: unknown };
}

/**
 * The commands without those that were undone, and without the undos. Only for a run that has not started, in which
 * an undo leaves no trace.
 */
export function notUndone<Each extends Given>(commands: readonly Each[]): readonly Each[] {
  const kept: Each[] = [];
  for (const each of commands) {
    if (each.command.do !== 'undo') kept.push(each);
    else {
      // A mark does not steer: an undo passes over it.
      let last = kept.length - 1;
      while (last >= 0 && !isSteering(kept[last]!)) last--;
      if (last >= 0) kept.splice(last, 1);
    }
  }
  return kept;
}

/** Whether a start was given and not undone. */
export function hasStarted(commands: readonly Given[]): boolean {
  return notUndone(commands).some(({ command }) => command.do === 'start');
}

function isSteering({ command: { do: name } }: Given): boolean {
  return typeof name === 'string' && isCommandName(name) && RULES[name].steers;
}
