/*
 * When the coach last gave a stretch up: those of its swimmers who had not left do not follow any more, as they
 * do where a stretch ends by itself or with the next Start.
 */

import type { Command, TimedCommand } from '../../app/core/run/command.ts';
import type { Millis } from '../../app/core/units.ts';

const GIVES_UP: readonly Command['do'][] = ['move-on', 'restart', 'go-to'];

/** Lists of commands are values: what was found of one holds. */
const known = new WeakMap<readonly TimedCommand[], Millis>();

/** commands: all accepted ones, in order. -Infinity for never, or where it was undone. */
export function lastAbandoned(commands: readonly TimedCommand[]): Millis {
  let found = known.get(commands);
  if (found === undefined) {
    found = find(commands);
    known.set(commands, found);
  }
  return found;
}

function find(commands: readonly TimedCommand[]): Millis {
  let undone = 0;
  for (let index = commands.length - 1; index >= 0; index--) {
    const { command, at } = commands[index]!;
    if (command.do === 'mark') continue;
    if (command.do === 'undo') undone++;
    else if (undone > 0) undone--;
    else if (GIVES_UP.includes(command.do)) return at;
  }
  return -Infinity;
}
