/*
 * Coming back after a crash: finds runs in the data folder that nobody ended. The newest one goes on where it should
 * be, and the others are closed. What cannot be used is set aside, and the coach is told.
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
  uselessText,
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

/** The most unfinished journals that one start folds, mends and closes. Only damage leaves more. */
const MOST_UNFINISHED = 20;

/** The most records with damage that get a sentence each. */
const MOST_SAID = 6;

export interface Recovery {
  readonly found: FoundRun | null;
  /** What the coach is told about that run; null if there is none. */
  readonly away: string | null;
  /** What else the coach must be told, in sentences. */
  readonly said: readonly string[];
  readonly unattended: {
    /** What was kept of each run that was left unattended, newest first. */
    readonly runs: readonly string[];
    /** To be called when the coach has read them; never rejects. */
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

/** Looks through the journals, newest first. Never rejects: if the disk refuses, `said` says so. */
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

/** The journals that are not closed, or that the coach has not been told about. Empty ones are put aside. */
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
  for (const path of empty) said.push(uselessText(path));
  // If the disk refuses, the next start finds them again.
  await putAside(disk, empty).catch(() => undefined);
  return unfinished;
}

async function journals(disk: Disk, folder: string, said: string[]): Promise<readonly string[]> {
  try {
    const names = await disk.list(folder);
    const newest = names
      .filter((name) => name.endsWith('.jsonl'))
      .sort()
      .reverse();
    return newest.map((name) => join(folder, name));
  } catch (error) {
    said.push(unreadableFolderText(folder, diskReason(error)));
    return [];
  }
}

/**
 * Sorts by the time of opening: within this start of the machine by the monotonic clock, else by the wall clock. The
 * longer of two copies of one journal comes first.
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

/** Reads the run of a journal; null if there is none to continue or close. */
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
    // It is only listed and left unchanged.
    const run = foundRun(folded, fileOf(path, bytes, folded.journal), ports.moment, ports.boot);
    unattended.push(unattendedRun(run, last.at));
    return null;
  }
  // Of a closed journal, only what follows its end matters.
  const isClosed = last.say === 'closed';
  const used = isClosed ? { ...folded, journal, refused: null } : folded;
  said.push(...stopText(path, used));
  const file = await withoutTorn(ports.disk, fileOf(path, bytes, used.journal));
  return isClosed ? null : foundRun(folded, file, ports.moment, ports.boot);
}

/** A sentence saying why a journal is not used to its end; none if it is. */
function stopText(path: string, { journal: { entries, stop }, refused }: FoldedJournal): readonly string[] {
  if (refused !== null) return [refusedText(path, entries.length + 1, refused)];
  return stop === null ? [] : [stoppedText(path, entries.length, stop)];
}

function fileOf(path: string, bytes: Uint8Array, { length, sums }: JournalLines): FoundFile {
  const torn = length < bytes.length ? bytes.subarray(length) : null;
  return { path, bytes: bytes.subarray(0, length), sum: sums[sums.length - 1]!, torn };
}

/** Cuts off what cannot be used. If the disk refuses now, that is done before the next write. */
async function withoutTorn(disk: Disk, file: FoundFile): Promise<FoundFile> {
  if (!file.torn) return file;
  try {
    await cutOffTorn(disk, file.path, file.bytes.length, file.torn);
    return { ...file, torn: null };
  } catch {
    return file;
  }
}

function bounded(said: readonly string[], folder: string): readonly string[] {
  const more = said.length - MOST_SAID;
  return more > 1 ? [...said.slice(0, MOST_SAID), moreText(more, folder)] : said;
}
