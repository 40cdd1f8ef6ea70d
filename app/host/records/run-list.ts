/*
 * All runs that are kept, newest first, from the ends of their journals. Nothing is locked or written, so that a folder
 * which a running host holds can be read too.
 */

import { readdir, readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Ended } from '../../core/record/kept-run.ts';
import { titleOf } from '../../core/session/parse.ts';
import { codeOf, diskReason } from '../journal/disk.ts';
import {
  JOURNAL_VERSION,
  readLine,
  versionOf,
  type ClosedWhy,
  type JournalEntry,
  type OpenedEntry,
} from '../journal/journal-line.ts';
import { lastEntryOf, readJournal } from '../journal/journal-text.ts';
import { unreadableText } from '../recovery/recovery-text.ts';
import { readEnds } from './journal-ends.ts';
import { openedAtOf } from './opened-at.ts';

export interface ListedRun {
  readonly path: string;
  readonly run: string;
  readonly title: string;
  readonly openedAt: string;
  readonly ended: Ended;
}

export interface RunList {
  readonly runs: readonly ListedRun[];
  /** Journals that cannot be read, each with a sentence. */
  readonly unread: readonly { readonly path: string; readonly why: string }[];
}

/** After so many journals everything else gets its turn. */
const AT_A_TIME = 20;

/** The runs of a folder of journals; none where there is no folder. Rejects with the system's reason where it cannot be read. */
export async function listRuns(folder: string): Promise<RunList> {
  const names = (await namesIn(folder)).filter((name) => name.endsWith('.jsonl'));
  const runs: ListedRun[] = [];
  const unread: { path: string; why: string }[] = [];
  for (const [index, name] of names.entries()) {
    if (index % AT_A_TIME === AT_A_TIME - 1) await new Promise((resolve) => setImmediate(resolve));
    const path = join(folder, name);
    const look = await lookAt(path);
    if (typeof look === 'string') unread.push({ path, why: look });
    else if (look) runs.push(look);
  }
  return { runs: runs.sort(newestFirst), unread };
}

/** Of two runs of one second the later file name. */
function newestFirst(a: ListedRun, b: ListedRun): number {
  return a.openedAt + a.path < b.openedAt + b.path ? 1 : -1;
}

async function namesIn(folder: string): Promise<readonly string[]> {
  try {
    return await readdir(folder);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return [];
    throw error;
  }
}

/** The run of a journal; why it cannot be read; null where nothing was begun in it, or it has just gone. */
async function lookAt(path: string): Promise<ListedRun | string | null> {
  try {
    const { first, last } = readEnds(path);
    const opened = first && openedIn(first);
    if (!opened || typeof opened === 'number') return notUsed(path, opened ?? 0);
    const why = (closedIn(lastEntryOf(last)) ?? (await closedInAll(path))) || null;
    if (why === 'not begun') return null;
    const title = titleOf(opened.text) ?? 'Session';
    return { path, run: opened.run, title, openedAt: openedAtOf(opened), ended: why ?? 'going' };
  } catch (error) {
    return codeOf(error) === 'ENOENT' ? null : unreadableText(path, diskReason(error));
  }
}

/** The first line; a number where it is of a newer version, null where it is no such line. */
function openedIn(bytes: Uint8Array): OpenedEntry | number | null {
  const text = new TextDecoder().decode(bytes);
  const version = versionOf(text) ?? 0;
  if (version > JOURNAL_VERSION) return version;
  const entry = readLine(text)?.entry;
  return entry?.say === 'opened' ? entry : null;
}

/** Of a journal whose last line says no end: it is not closed, or has something behind its end. */
async function closedInAll(path: string): Promise<ClosedWhy | null> {
  const journal = readJournal(await readFile(path));
  return journal.kind === 'journal' ? closedIn(journal.entries[journal.entries.length - 1]!) : null;
}

/** How it was closed, by its last line; null where that closes nothing. */
export function closedIn(entry: JournalEntry | null): ClosedWhy | null {
  return entry?.say === 'closed' ? entry.why : null;
}

/** Why nothing of a journal is used. `version`: of a newer program; 0 where its first line is not whole. */
export function notUsed(path: string, version: number): string {
  const name = basename(path);
  return version > 0
    ? `The record ${name} was written by a newer Lanecall (form ${version}): it is left as it is. Read it with that newer version.`
    : `The record ${name} is damaged at its first line: nothing of it can be read, and it is left as it is.`;
}
