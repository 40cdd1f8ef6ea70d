/*
 * Which commands were taken back.
 */

import type { TimedCommand } from './command/command.ts';
import { RULES } from './command/commands.ts';

/** By the place of each undo, the place of the command that it took back: the last that stood and is no mark. */
export function takenBack(commands: readonly TimedCommand[]): ReadonlyMap<number, number> {
  const standing: number[] = [];
  const taken = new Map<number, number>();
  commands.forEach(({ command }, index) => {
    if (command.do === 'undo') {
      const last = standing.pop();
      if (last !== undefined) taken.set(index, last);
    } else if (RULES[command.do].steers) standing.push(index);
  });
  return taken;
}
