/*
 * A run read from its journal: folded again from the text and the commands.
 */

import type { Millis } from '../../core/units.ts';
import { openPlan } from '../../core/plan/open-plan.ts';
import type { Plan, Source } from '../../core/plan/plan.ts';
import type { TimedCommand } from '../../core/run/command/command.ts';
import { readCommand } from '../../core/run/command/read-command.ts';
import { apply } from '../../core/run/fold.ts';
import type { Away } from '../../core/run/record.ts';
import { openRun, type RunState } from '../../core/run/state.ts';
import type { ClockInstant } from '../time/clock.ts';
import { awayTimes, positionAt, type Position } from './comeback.ts';
import type { CommandEntry } from '../journal/journal-line.ts';
import { firstLines, type JournalLines } from '../journal/journal-text.ts';
import type { FoundFile } from '../journal/run-file.ts';
import { weightOf } from '../deck/run-texts.ts';
import { THIS_MACHINE, type Commander } from '../sharing/doors/guest.ts';

export interface FoundCommand extends TimedCommand {
  readonly id: string;
  readonly by: Commander;
  /** The command's fields as they came from a screen. */
  readonly fields: Readonly<Record<string, unknown>>;
}

/** A run that can be continued. */
export interface FoundRun {
  readonly run: string;
  readonly source: Source;
  readonly clockPhase: Millis;
  readonly openedAtTimeOfDay: Millis;
  /** ms since 1970 (UTC) by the wall clock. */
  readonly openedAtWall: number;
  readonly commands: readonly FoundCommand[];
  /** After the last command. */
  readonly state: RunState;
  /** Where it is at the moment given, and how that is known. */
  readonly position: Position;
  /** The times in which the host was not running, the last one included. */
  readonly away: readonly Away[];
  /** The weight of all its texts, see RunTexts. */
  readonly weight: number;
  readonly file: FoundFile;
}

/** A journal folded as far as it goes. */
export interface FoldedJournal {
  /** The lines that were used. */
  readonly journal: JournalLines;
  /** As the run was opened. */
  readonly plan: Plan;
  readonly commands: readonly FoundCommand[];
  /** After the last command. */
  readonly state: RunState;
  /** The weight of all texts that came into force, see RunTexts. */
  readonly weight: number;
  /**
   * Why a line was not used: this program does not know its command, or refuses it. Later lines are not used either,
   * because they were given on top of it and screens could not follow. Null if all lines were used.
   */
  readonly refused: string | null;
}

/** Folds a journal; null if this program can no longer read the session. */
export function foldJournal(journal: JournalLines): FoldedJournal | null {
  const { text, lanesText, clockPhase } = journal.opened;
  const opened = openPlan({ text, lanesText });
  if (!opened.ok) return null;
  const plan = opened.value;
  const commands: FoundCommand[] = [];
  let state = openRun(plan, clockPhase);
  let weight = weightOf(plan);
  for (const [index, entry] of journal.entries.entries()) {
    if (entry.say !== 'command') continue;
    const next = carriedOut(state, entry, commands[commands.length - 1]?.at ?? 0);
    if (!next.ok) return { journal: firstLines(journal, index), plan, commands, state, weight, refused: next.why };
    state = next.state;
    if ('text' in next.command.command) weight += weightOf(state.plan);
    commands.push(next.command);
  }
  return { journal, plan, commands, state, weight, refused: null };
}

/** The run of a folded journal, at a moment. */
export function foundRun(
  { journal: { opened, entries }, commands, state, weight }: FoldedJournal,
  file: FoundFile,
  moment: ClockInstant,
  boot: string,
): FoundRun {
  const { run, text, lanesText, clockPhase, openedAtTimeOfDay } = opened;
  const openedAtWall = opened.wall - opened.at;
  const open = entries.filter(({ say }) => say !== 'closed');
  const position = positionAt(open, moment, boot);
  const away = awayTimes(open, position);
  const source = { text, lanesText };
  const times = { clockPhase, openedAtTimeOfDay, openedAtWall };
  return { run, source, ...times, commands, state, position, away, weight, file };
}

type CarriedOut =
  | { readonly ok: true; readonly state: RunState; readonly command: FoundCommand }
  | { readonly ok: false; readonly why: string };

/** `last`: the time of the command before. */
function carriedOut(state: RunState, entry: CommandEntry, last: Millis): CarriedOut {
  const { id, by = 'desk', from = THIS_MACHINE, at, command: fields } = entry;
  const command = readCommand(fields);
  if (!command.ok) return { ok: false, why: command.faults };
  if (!Number.isSafeInteger(at) || at < last)
    return { ok: false, why: 'Its time is before that of the command before.' };
  const answer = apply(state, command.value, at);
  if (!answer.ok) return { ok: false, why: answer.why };
  return {
    ok: true,
    state: answer.state,
    command: { id, by: { ...from, kind: by }, at, fields, command: command.value },
  };
}
