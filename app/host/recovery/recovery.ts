/*
 * Coming back: what the journals of the data folder say of a run that nobody ended. The newest such run
 * goes on where it should be, and others are closed; what cannot be used is kept aside, and the coach is told.
 */

import { join } from 'node:path';
import type { ClockInstant } from '../time/clock.ts';
import { isSameBoot } from '../lock/boot.ts';
import {
  awayText,
  brokenText,
  leftForLaterText,
  moreText,
  newerText,
  refusedText,
  stoppedText,
  unreadableFolderText,
} from './recovery-text.ts';
import { diskReason, type Disk } from '../journal/disk.ts';
import { foldJournal, foundRun, type FoldedJournal, type FoundRun } from './found-run.ts';
import { lookAt, type UnfinishedJournal } from '../journal/journal-look.ts';
import type { JournalLines } from '../journal/journal-text.ts';
import type { FoundFile } from '../journal/run-file.ts';
import { cutOffTorn, putAside } from '../journal/torn.ts';
import {
  closeAsTold,
  closeFound,
  closeUnattended,
  isToBeTold,
  isUnattended,
  unattendedRun,
  type UnattendedRun,
} from './unattended.ts';

/** So many unfinished journals are folded, mended and closed at a start; nobody has more but by damage. */
const MOST_UNFINISHED = 20;

/** So many sentences of records that cannot be used to their end are told one by one. */
const MOST_SAID = 6;

export interface Recovery {
  readonly found: FoundRun | null;
  /** What the coach is told of that run; null without one. */
  readonly away: string | null;
  /** What else the coach must be told, in sentences. */
  readonly said: readonly string[];
  readonly unattended: {
    /** What was kept of each run that was left unattended, newest first. */
    readonly runs: readonly string[];
    /** The coach has read that; never rejects. */
    told(): Promise<void>;
  };
}

export interface RecoveryPorts {
  readonly disk: Disk;
  /** Where journals are. */
  readonly folder: string;
  readonly boot: string;
  /** Now. */
  readonly moment: ClockInstant;
}

/** Looks through the journals, newest first. Never rejects: what the disk refuses is said. */
export async function recover(ports: RecoveryPorts): Promise<Recovery> {
  const said: string[] = [];
  const unattended: UnattendedRun[] = [];
  const unfinished = newestFirst(await unfinishedJournals(ports, said), ports.boot);
  let found: FoundRun | null = null;
  for (const each of unfinished.slice(0, MOST_UNFINISHED)) {
    const run = await readRun(ports, each, said, unattended);
    if (!run) continue;
    if (isUnattended(run)) {
      const closed = await closeUnattended(ports, run);
      if (closed) unattended.push(closed);
    } else if (found) await closeFound(ports, run, 'replaced');
    else found = run;
  }
  const later = Math.max(0, unfinished.length - MOST_UNFINISHED);
  const runs = unattended.map(({ text }) => text);
  return {
    found,
    away: found && awayText(found),
    said: [...bounded(said, ports.folder), ...(later > 0 ? [leftForLaterText(later, ports.folder)] : [])],
    unattended: { runs, told: () => closeAsTold(ports, unattended) },
  };
}

/** Those that were not closed, or of which the coach is still to be told. What holds nothing is put aside. */
async function unfinishedJournals(
  { disk, folder }: RecoveryPorts,
  said: string[],
): Promise<readonly UnfinishedJournal[]> {
  const unfinished: UnfinishedJournal[] = [];
  const empty: string[] = [];
  for (const look of await lookAt(disk, await journals(disk, folder, said))) {
    if (look.kind === 'unfinished') unfinished.push(look);
    else if (look.kind === 'nothing') empty.push(look.path);
    else if (look.kind === 'newer') said.push(newerText(look.path, look.version));
    else if (look.kind === 'unreadable') said.push(look.sentence);
  }
  for (const path of empty) said.push(stoppedText(path, 0, 'damaged'));
  // Where the disk refuses they are found again the next time.
  if (empty.length > 0) await putAside(disk, empty).catch(() => undefined);
  return unfinished;
}

async function journals(disk: Disk, folder: string, said: string[]): Promise<readonly string[]> {
  try {
    const names = await disk.list(folder);
    const newest = names.filter((name) => name.endsWith('.jsonl')).sort((a, b) => (a < b ? 1 : -1));
    return newest.map((name) => join(folder, name));
  } catch (error) {
    said.push(unreadableFolderText(folder, diskReason(error)));
    return [];
  }
}

/**
 * By when they were opened: within this start of the machine by the clock that nobody sets, else by the wall clock.
 * Of two copies of one journal the longer comes first.
 */
function newestFirst(unfinished: readonly UnfinishedJournal[], boot: string): readonly UnfinishedJournal[] {
  const isOfThisStart = ({ journal }: UnfinishedJournal): boolean => isSameBoot(journal.opened.boot, boot);
  const by = (clock: 'mono' | 'wall') => (a: UnfinishedJournal, b: UnfinishedJournal) =>
    b.journal.opened[clock] - a.journal.opened[clock] || b.journal.length - a.journal.length;
  return [
    ...unfinished.filter(isOfThisStart).sort(by('mono')),
    ...unfinished.filter((each) => !isOfThisStart(each)).sort(by('wall')),
  ];
}

/** Null where there is no run to be gone on with, or to be closed. */
async function readRun(
  ports: RecoveryPorts,
  { path, bytes, journal }: UnfinishedJournal,
  said: string[],
  unattended: UnattendedRun[],
): Promise<FoundRun | null> {
  const folded = foldJournal(journal);
  if (!folded) {
    said.push(brokenText(path));
    return null;
  }
  const last = journal.entries[journal.entries.length - 1]!;
  if (isToBeTold(last)) {
    // It is only listed, and left as it is.
    const run = foundRun(folded, fileOf(path, bytes, folded.journal), ports.moment, ports.boot);
    unattended.push(unattendedRun(run, last.at));
    return null;
  }
  // Of one that is closed only what is behind its end is of interest.
  const isClosed = last.say === 'closed';
  const used = isClosed ? { ...folded, journal, refused: null } : folded;
  said.push(...stopText(path, used));
  const file = await withoutTorn(ports.disk, fileOf(path, bytes, used.journal));
  return isClosed ? null : foundRun(folded, file, ports.moment, ports.boot);
}

/** Why a journal is not used to its end, in a sentence; none where it is. */
function stopText(path: string, { journal: { entries, stop }, refused }: FoldedJournal): readonly string[] {
  if (refused !== null) return [refusedText(path, entries.length + 1, refused)];
  return stop === null ? [] : [stoppedText(path, entries.length, stop)];
}

function fileOf(path: string, bytes: Uint8Array, { length, sums }: JournalLines): FoundFile {
  const torn = length < bytes.length ? bytes.subarray(length) : null;
  return { path, bytes: bytes.subarray(0, length), sum: sums[sums.length - 1]!, torn };
}

/** Where it cannot be cut now, it is before anything is written. */
async function withoutTorn(disk: Disk, file: FoundFile): Promise<FoundFile> {
  if (!file.torn) return file;
  const isCut = await cutOffTorn(disk, file.path, file.bytes.length, file.torn).then(
    () => true,
    () => false,
  );
  return isCut ? { ...file, torn: null } : file;
}

function bounded(said: readonly string[], folder: string): readonly string[] {
  const more = said.length - MOST_SAID;
  return more > 1 ? [...said.slice(0, MOST_SAID), moreText(more, folder)] : said;
}
