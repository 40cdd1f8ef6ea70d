/*
 * What a run has been told before its first start: until then it can be opened anew by another pool's clock, and
 * all of it stands there too.
 */

import { RULES } from './commands.ts';
import { isCommandName } from './read-command.ts';

interface Given {
  readonly command: { readonly do?: unknown };
}

/**
 * The commands without those that were undone, and without their undos; of a run that has not started, where an undo
 * leaves nothing behind.
 */
export function notUndone<Each extends Given>(commands: readonly Each[]): readonly Each[] {
  const kept: Each[] = [];
  for (const each of commands) {
    if (each.command.do !== 'undo') kept.push(each);
    else {
      // What does not steer, a mark, is passed over and stays.
      let last = kept.length - 1;
      while (last >= 0 && !isSteering(kept[last]!)) last--;
      if (last >= 0) kept.splice(last, 1);
    }
  }
  return kept;
}

/** Whether a start was given that was not undone. */
export function hasStarted(commands: readonly Given[]): boolean {
  return notUndone(commands).some(({ command }) => command.do === 'start');
}

function isSteering({ command: { do: name } }: Given): boolean {
  return typeof name === 'string' && isCommandName(name) && RULES[name].steers;
}
