/*
 * What the coach commanded in a run, each with what it did: for the record.
 */

import type { Command, TimedCommand } from '../../../app/core/run/command/command.ts';
import { RULES } from '../../../app/core/run/command/commands.ts';
import { apply } from '../../../app/core/run/fold.ts';
import { openRun, type RunState } from '../../../app/core/run/state.ts';
import type { Millis } from '../../../app/core/units.ts';
import type { DeckRun } from '../../link/store.ts';
import { saidOf } from '../../ui/coach/feedback/said.ts';
import { leaveText, type TimeText } from '../../ui/coach/feedback/words.ts';
import { clockTimeToSecond } from '../../../app/core/words/time/time-of-day.ts';

export interface CommandRecord {
  readonly at: Millis;
  readonly command: Command;
  /** Lanes it named; none for all of them, or where it takes none. */
  readonly lanes: readonly number[];
  readonly undone: boolean;
  /** What it did, as it was said then, with times as `recordTime` has them. */
  readonly did: string;
}

/** All that were accepted, in order, undone ones and marks too. */
export function commandRecords({
  plan,
  clockPhase,
  commands,
  openedAtTimeOfDay,
}: RunOfCommands): readonly CommandRecord[] {
  const undone = undoneIn(commands);
  const timeText = recordTime(openedAtTimeOfDay);
  let state: RunState = openRun(plan, clockPhase);
  return commands.map(({ at, command }, index) => {
    const did = saidOf(state, command, at, timeText) ?? '';
    state = apply(state, command, at).state;
    const lanes = 'lanes' in command ? (command.lanes ?? []) : [];
    return { at, command, lanes, undone: undone.has(index), did };
  });
}

export type RunOfCommands = Pick<DeckRun, 'plan' | 'clockPhase' | 'commands' | 'openedAtTimeOfDay'>;

/** How times in these sentences are to be read, in a head above them. */
export const RECORD_TIMES = 'times of day, in brackets the clock since the last start';

/** "19:36:20 (6:10)": afterwards the time of day places it, and the reading is what the screens showed. */
function recordTime(openedAt: Millis): TimeText {
  return (view, at) => `${clockTimeToSecond(openedAt + at)} (${leaveText('stretch', view, at)})`;
}

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
