/*
 * A run as its journal tells it, folded again from the text and the commands.
 */

import type { Millis } from '../core/units.ts';
import { openPlan } from '../core/plan/open-plan.ts';
import type { Source } from '../core/plan/plan.ts';
import { readCommand, type TimedCommand } from '../core/run/command.ts';
import { apply } from '../core/run/fold.ts';
import type { Away } from '../core/run/record.ts';
import { openRun, type RunState } from '../core/run/state.ts';
import type { Moment } from './clock.ts';
import { awayTimes, positionAt, type Position } from './comeback.ts';
import type { FoundFile } from './journal-file.ts';
import type { JournalEntry } from './journal-line.ts';
import type { JournalText } from './journal-text.ts';

export interface FoundCommand extends TimedCommand {
  readonly id: string;
  /** As they came from a screen. */
  readonly fields: Readonly<Record<string, unknown>>;
}

/** A run to be gone on with. */
export interface FoundRun {
  readonly run: string;
  readonly source: Source;
  readonly clockPhase: Millis;
  readonly openedAtTimeOfDay: Millis;
  /** By the wall clock, in ms since 1970, UTC. */
  readonly openedAtWall: number;
  readonly commands: readonly FoundCommand[];
  /** After the last command. */
  readonly state: RunState;
  /** Where it is at the moment given, and how that is known. */
  readonly position: Position;
  /** When nobody was there, this time included. */
  readonly away: readonly Away[];
  readonly file: FoundFile;
}

/** Null where this program cannot read the session any more. */
export function foundRun(
  { opened, entries }: Extract<JournalText, { kind: 'journal' }>,
  file: FoundFile,
  moment: Moment,
  boot: string,
): FoundRun | null {
  const { run, text, lanesText, clockPhase, openedAtTimeOfDay } = opened;
  const source = { text, lanesText };
  const plan = openPlan(source);
  if (!plan.ok) return null;
  const commands = entries.flatMap(foundCommand);
  const state = commands.reduce(
    (before, { command, at }) => apply(before, command, at).state,
    openRun(plan.value, clockPhase),
  );
  const position = positionAt(entries, moment, boot);
  const away = awayTimes(entries, position);
  const openedAtWall = opened.wall;
  return { run, source, clockPhase, openedAtTimeOfDay, openedAtWall, commands, state, position, away, file };
}

function foundCommand(entry: JournalEntry): readonly FoundCommand[] {
  if (entry.say !== 'command') return [];
  const { id, at, command: fields } = entry;
  const command = readCommand(fields);
  return command.ok ? [{ id, at, fields, command: command.value }] : [];
}
