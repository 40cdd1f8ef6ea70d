/*
 * Which leave of a lane is still under way: its swimmers go off one after the other, also where the next stretch
 * was started meanwhile. Where the coach gave the stretch up, nobody waits for them once the next one is started.
 */

import { ON_ITS_WAY } from '../../app/core/run/align.ts';
import type { TimedCommand } from '../../app/core/run/command/command.ts';
import { RULES } from '../../app/core/run/command/commands.ts';
import type { LastView, LaneView, RunView } from '../../app/core/run/view.ts';
import type { Millis } from '../../app/core/units.ts';

/**
 * The leave whose swimmers still go off one after the other; null where there is none, and once the tail is away.
 * abandonedAt: when a stretch was given up last, as `lastAbandoned` has it.
 */
export function leavingNow({ t, phase, pauseEnd }: RunView, { last }: LaneView, abandonedAt: Millis): LastView | null {
  if (!last || t >= last.tailAt) return null;
  const isSwim = phase === 'going' && pauseEnd === null;
  // R1: what was on its way when the stretch was given up left with it.
  return isSwim && last.at <= abandonedAt + ON_ITS_WAY ? null : last;
}

/** Lists of commands are values: what was found of one holds. */
const known = new WeakMap<readonly TimedCommand[], Millis>();

/** When the coach last gave a stretch up. commands: all accepted ones, in order. -Infinity for never, or where it was undone. */
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
    const { steers, givesUp } = RULES[command.do];
    if (command.do === 'undo') undone++;
    else if (steers && undone > 0) undone--;
    else if (givesUp) return at;
  }
  return -Infinity;
}
