/*
 * Journals as a host writes them, put into a data folder without one: for tests of what reads them.
 */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { runsFolder } from '../../../../app/host/lock/data-folder.ts';
import { JOURNAL_VERSION, lineOf, type JournalEntry, type Stamp } from '../../../../app/host/journal/journal-line.ts';
import { HOUR, MINUTE, type Millis } from '../../../../app/core/units.ts';

/** Without its times: they follow from `at`. */
export type Said = JournalEntry extends infer Entry
  ? Entry extends Stamp
    ? Omit<Entry, Exclude<keyof Stamp, 'at'>>
    : never
  : never;

export interface WrittenRun {
  readonly run: string;
  readonly text: string;
  readonly lanesText?: string | null;
  readonly clockPhase?: Millis;
  /** In ms since 1970 (UTC); 19:30 on a Thursday in November by default. */
  readonly openedAt?: number;
  readonly journal?: number;
}

/** 2026-11-26, 19:30 UTC. */
export const THURSDAY = Date.UTC(2026, 10, 26, 19, 30);

/** The lines of a journal, each with its newline. Its time of day is by UTC. */
export function journalLines(written: WrittenRun, said: readonly Said[]): readonly string[] {
  const { run, text, lanesText = null, clockPhase = 0, openedAt = THURSDAY, journal = JOURNAL_VERSION } = written;
  const openedAtTimeOfDay = openedAt % (24 * HOUR);
  const opened = { say: 'opened', at: 0, journal, run, text, lanesText, clockPhase, openedAtTimeOfDay } as const;
  let after: string | null = null;
  return [opened, ...said].map((entry) => {
    const { at } = entry;
    const stamp = { at, mono: 5000 + at, uptime: 5000 + at, wall: openedAt + at, boot: 'boot-1' };
    // The first version names no line before.
    const line = lineOf({ ...entry, ...stamp } as JournalEntry, journal === 1 ? null : after);
    after = line.sum;
    return line.text;
  });
}

/** Writes a journal and gives its path. */
export function writeJournal(data: string, written: WrittenRun, said: readonly Said[], more = ''): string {
  const folder = runsFolder(data);
  mkdirSync(folder, { recursive: true });
  const time = new Date(written.openedAt ?? THURSDAY).toISOString().slice(0, 19).replaceAll(':', '-');
  const path = join(folder, `${time}Z-${written.run}.jsonl`);
  writeFileSync(path, journalLines(written, said).join('') + more);
  return path;
}

/** Commands as they stand in a journal. */
export function said(commands: readonly { readonly atMs: Millis; readonly fields: object }[]): readonly Said[] {
  return commands.map(({ atMs, fields }, index) => ({
    say: 'command',
    at: atMs,
    id: `c-${index}`,
    command: { ...fields },
  }));
}

/** How an hour is closed that is done. */
export const DONE: Said = { say: 'closed', at: HOUR + 10 * MINUTE, why: 'done' };
