/*
 * What the coach commanded in a run, each with what it did: for the record.
 */

import type { Command, TimedCommand } from '../../app/core/run/command.ts';
import { RULES } from '../../app/core/run/commands.ts';
import { apply } from '../../app/core/run/fold.ts';
import { openRun, type RunState } from '../../app/core/run/state.ts';
import type { Millis } from '../../app/core/units.ts';
import type { DeckRun } from '../link/store.ts';
import { saidOf } from '../ui/coach/said.ts';

export interface CommandRecord {
  readonly at: Millis;
  readonly command: Command;
  /** Lanes it named; none for all of them, or where it takes none. */
  readonly lanes: readonly number[];
  readonly undone: boolean;
  /** What it did, as it was said then, with readings of the clock of the run. */
  readonly did: string;
}

/** All that were accepted, in order, undone ones and marks too. */
export function commandRecords({ plan, clockPhase, commands }: RunOfCommands): readonly CommandRecord[] {
  const undone = undoneIn(commands);
  let state: RunState = openRun(plan, clockPhase);
  return commands.map(({ at, command }, index) => {
    const did = saidOf(state, command, at, 'run') ?? '';
    state = apply(state, command, at).state;
    const lanes = 'lanes' in command ? (command.lanes ?? []) : [];
    return { at, command, lanes, undone: undone.has(index), did };
  });
}

export type RunOfCommands = Pick<DeckRun, 'plan' | 'clockPhase' | 'commands'>;

/** The places of commands that an undo took back: each the last before it that is no mark and was not taken back. */
function undoneIn(commands: readonly TimedCommand[]): ReadonlySet<number> {
  const standing: number[] = [];
  const undone = new Set<number>();
  commands.forEach(({ command }, index) => {
    if (command.do === 'undo') {
      const last = standing.pop();
      if (last !== undefined) undone.add(last);
    } else if (RULES[command.do].steers) standing.push(index);
  });
  return undone;
}
