/*
 * A run as its journal keeps it. The journal is only read: what cannot be used of it is left out here and stays there.
 */

import { basename } from 'node:path';
import type { KeptRun } from '../../core/record/kept-run.ts';
import type { Away } from '../../core/run/record.ts';
import { SECOND, type Millis } from '../../core/units.ts';
import { diskReason, type Disk } from '../journal/disk.ts';
import type { JournalEntry } from '../journal/journal-line.ts';
import { lastEntryOf, readJournal, type JournalLines } from '../journal/journal-text.ts';
import { awayTimes } from '../recovery/comeback.ts';
import { foldJournal } from '../recovery/found-run.ts';
import { brokenText, unreadableText } from '../recovery/recovery-text.ts';
import { openedAtOf } from './opened-at.ts';
import { closedIn, notUsed } from './run-list.ts';

export type KeptRead =
  | {
      readonly kind: 'run';
      readonly kept: KeptRun;
      /** A sentence where the journal is not used to its end; null where it is, but for a line half written. */
      readonly said: string | null;
    }
  /** Nobody has begun it: it is no run. */
  | { readonly kind: 'not begun' }
  | { readonly kind: 'unread'; readonly why: string };

/** Two signs of life: nobody was there in a longer silence. */
const LONGEST_SILENCE: Millis = 10 * SECOND;

/** Never rejects. */
export async function readKept(disk: Pick<Disk, 'read'>, path: string): Promise<KeptRead> {
  try {
    return keptIn(path, await disk.read(path));
  } catch (error) {
    return { kind: 'unread', why: unreadableText(path, diskReason(error)) };
  }
}

function keptIn(path: string, bytes: Uint8Array): KeptRead {
  const journal = readJournal(bytes);
  if (journal.kind !== 'journal') {
    return { kind: 'unread', why: notUsed(path, journal.kind === 'newer' ? journal.version : 0) };
  }
  const why = closedIn(lastEntryOf(bytes)) ?? closedIn(lastOf(journal.entries));
  if (why === 'not begun') return { kind: 'not begun' };
  const folded = foldJournal(journal);
  if (!folded) return { kind: 'unread', why: brokenText(path) };
  const { opened, entries } = folded.journal;
  const open = entries.filter(({ say }) => say !== 'closed');
  const kept = {
    run: opened.run,
    openedAt: openedAtOf(opened),
    openedAtTimeOfDay: opened.openedAtTimeOfDay,
    ended: why ?? ('going' as const),
    plan: folded.plan,
    clockPhase: opened.clockPhase,
    commands: folded.commands,
    away: awayIn(entries, open),
    until: Math.ceil(lastOf(entries).at),
    seenAt: Math.ceil(lastOf(open).at),
  };
  return { kind: 'run', kept, said: isUsedToItsEnd(bytes, folded.journal) ? null : partText(path, entries.length) };
}

/** open: the lines that do not close it. Whoever closed it after a long silence was not there before. */
function awayIn(entries: readonly JournalEntry[], open: readonly JournalEntry[]): readonly Away[] {
  const seenAt = Math.ceil(lastOf(open).at);
  const { at } = lastOf(entries);
  return awayTimes(open, { seenAt, at: at > seenAt + LONGEST_SILENCE ? at : seenAt });
}

/** A last line without its end may just be written. */
function isUsedToItsEnd(bytes: Uint8Array, { length }: JournalLines): boolean {
  return bytes.indexOf(NEWLINE, length) < 0;
}

const NEWLINE = 0x0a;

function partText(path: string, lines: number): string {
  return `The record ${basename(path)} can be used up to line ${lines}: what stands behind that is left out.`;
}

function lastOf(entries: readonly JournalEntry[]): JournalEntry {
  return entries[entries.length - 1]!;
}
