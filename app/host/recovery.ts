/*
 * Coming back: what the journals of the data folder say of a run that nobody ended. The newest such run
 * goes on where it should be; one that is long past its end is closed; what is damaged is set aside.
 */

import { join } from 'node:path';
import type { Moment } from './clock.ts';
import { awayText, brokenText, newerText, tornText, unreadableFolderText, unreadableText } from './comeback-text.ts';
import { diskReason, type Disk } from './disk.ts';
import { foundRun, type FoundRun } from './found-run.ts';
import type { FoundFile } from './journal-file.ts';
import { lastEntryOf, readJournal } from './journal-text.ts';
import { cutOffTorn, putAside } from './torn.ts';
import {
  closeAsTold,
  closeUnattended,
  isToBeTold,
  isUnattended,
  unattendedRun,
  type UnattendedRun,
} from './unattended.ts';

/** A closing line is far shorter, in bytes. */
const END = 1024;

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
  readonly moment: Moment;
}

/** Looks through the journals, newest first. Never rejects: what the disk refuses is said. */
export async function recover(ports: RecoveryPorts): Promise<Recovery> {
  const said: string[] = [];
  const unattended: UnattendedRun[] = [];
  let found: FoundRun | null = null;
  for (const path of await journals(ports, said)) {
    const run = await readOpen(ports, path, said, unattended);
    if (!run) continue;
    if (!isUnattended(run)) found ??= run;
    else unattended.push(...[await closeUnattended(ports, run)].filter((closed) => closed !== null));
  }
  const runs = unattended.map(({ text }) => text);
  return {
    found,
    away: found && awayText(found),
    said,
    unattended: { runs, told: () => closeAsTold(ports, unattended) },
  };
}

async function journals({ disk, folder }: RecoveryPorts, said: string[]): Promise<readonly string[]> {
  try {
    const names = await disk.list(folder);
    const newestFirst = names.filter((name) => name.endsWith('.jsonl')).sort((a, b) => (a < b ? 1 : -1));
    return newestFirst.map((name) => join(folder, name));
  } catch (error) {
    said.push(unreadableFolderText(folder, diskReason(error)));
    return [];
  }
}

/** The run of a journal that was not closed; null for one that was, or that cannot be gone on with. */
async function readOpen(
  ports: RecoveryPorts,
  path: string,
  said: string[],
  unattended: UnattendedRun[],
): Promise<FoundRun | null> {
  try {
    // Old journals are many; of one that was closed nothing but its end is read.
    const last = lastEntryOf(await ports.disk.readEnd(path, END));
    if (last?.say === 'closed' && !isToBeTold(last)) return null;
    return await readWhole(ports, path, said, unattended);
  } catch (error) {
    said.push(unreadableText(path, diskReason(error)));
    return null;
  }
}

async function readWhole(
  ports: RecoveryPorts,
  path: string,
  said: string[],
  unattended: UnattendedRun[],
): Promise<FoundRun | null> {
  const bytes = await ports.disk.read(path);
  const journal = readJournal(bytes);
  if (journal.kind === 'newer') {
    said.push(newerText(path, journal.version));
    return null;
  }
  if (journal.kind === 'nothing') {
    said.push(tornText(path, 0));
    await putAside(ports.disk, path);
    return null;
  }
  const torn = journal.length < bytes.length ? bytes.subarray(journal.length) : null;
  let file: FoundFile = { path, length: journal.length, torn };
  if (torn) {
    said.push(tornText(path, journal.entries.length));
    const isCut = await cutOffTorn(ports.disk, path, journal.length, torn).then(
      () => true,
      () => false,
    );
    // Where it cannot be cut now, it is before anything is written.
    if (isCut) file = { ...file, torn: null };
  }
  const last = journal.entries[journal.entries.length - 1]!;
  if (last.say === 'closed' && !isToBeTold(last)) return null;
  const entries = journal.entries.filter(({ say }) => say !== 'closed');
  const run = foundRun({ ...journal, entries }, file, ports.moment, ports.boot);
  if (!run) said.push(brokenText(path));
  if (last.say !== 'closed') return run;
  if (run) unattended.push(unattendedRun(run, last.at));
  return null;
}
