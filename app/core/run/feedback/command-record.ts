/*
 * Every command of a run with what it did, for the record that the coach saves afterwards.
 */

import type { Plan } from '../../plan/plan.ts';
import type { Millis } from '../../units.ts';
import { leaveReading } from '../../words/time/clock.ts';
import { clockTimeToSecond } from '../../words/time/time-of-day.ts';
import type { Command, TimedCommand } from '../command/command.ts';
import { apply } from '../fold.ts';
import { openRun, type RunState } from '../state.ts';
import { takenBack } from '../undone.ts';
import { feedbackOf, type TimeText } from './feedback.ts';

export interface CommandRecord {
  readonly at: Millis;
  readonly command: Command;
  /** The lanes it named; empty if it was for all lanes, or is not about lanes. */
  readonly lanes: readonly number[];
  readonly undone: boolean;
  /** The sentence that the screens showed, but with times of day. */
  readonly did: string;
}

/** Every accepted command in order, also marks and those that were undone. */
export function commandRecords({
  plan,
  clockPhase,
  commands,
  openedAtTimeOfDay,
}: RunOfCommands): readonly CommandRecord[] {
  const undone = new Set(takenBack(commands).values());
  const timeText = recordTime(openedAtTimeOfDay);
  let state: RunState = openRun(plan, clockPhase);
  return commands.map(({ at, command }, index) => {
    const did = feedbackOf(state, command, at, timeText) ?? '';
    state = apply(state, command, at).state;
    const lanes = 'lanes' in command ? (command.lanes ?? []) : [];
    return { at, command, lanes, undone: undone.has(index), did };
  });
}

/** A run as it was opened, and its commands. */
export interface RunOfCommands {
  readonly plan: Plan;
  readonly clockPhase: Millis;
  readonly openedAtTimeOfDay: Millis;
  readonly commands: readonly TimedCommand[];
}

/** Says above the sentences how their times are written. */
export const RECORD_TIMES = 'times of day, in brackets the clock since the last start';

/** "19:36:20 (6:10)": afterwards the time of day places it, and the reading is what the screens showed. */
function recordTime(openedAt: Millis): TimeText {
  return (view, at) => `${clockTimeToSecond(openedAt + at)} (${leaveReading('stretch', view, at) ?? '–'})`;
}
