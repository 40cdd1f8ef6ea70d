/*
 * Coming back: what the journals of the data folder say of a run that nobody ended. The newest such run
 * goes on where it should be; one that is long past its end is closed; what is damaged is set aside.
 */

import { join } from 'node:path';
import { MINUTE, type Millis } from '../core/units.ts';
import { projectedEnd } from '../core/run/projection.ts';
import { settle } from '../core/run/settle.ts';
import type { Moment } from './clock.ts';
import { awayText, brokenText, newerText, tornText, unattendedText, unreadableText } from './comeback-text.ts';
import { diskReason, type Disk } from './disk.ts';
import { foundRun, type FoundRun } from './found-run.ts';
import type { FoundFile } from './journal-file.ts';
import { lineOf } from './journal-line.ts';
import { endsClosed, readJournal } from './journal-text.ts';
import { cutOffTorn, putAside } from './torn.ts';

/** A run past its projected end for longer than this was left unattended. */
const UNATTENDED_AFTER: Millis = 30 * MINUTE;

/** A closing line is far shorter, in bytes. */
const END = 1024;

export interface Recovery {
  readonly found: FoundRun | null;
  /** What the coach must be told, in sentences. */
  readonly said: readonly string[];
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
  let found: FoundRun | null = null;
  for (const path of await journals(ports, said)) {
    const unfinished = await readUnfinished(ports, path, said);
    if (unfinished && isUnattended(unfinished)) await closeUnattended(ports, unfinished, said);
    else found ??= unfinished;
  }
  return found ? { found, said: [awayText(found), ...said] } : { found, said };
}

async function journals({ disk, folder }: RecoveryPorts, said: string[]): Promise<readonly string[]> {
  try {
    const names = await disk.list(folder);
    const newestFirst = names.filter((name) => name.endsWith('.jsonl')).sort((a, b) => (a < b ? 1 : -1));
    return newestFirst.map((name) => join(folder, name));
  } catch (error) {
    said.push(unreadableText(folder, diskReason(error)));
    return [];
  }
}

/** The run of a journal that was not closed; null for one that was, or that cannot be gone on with. */
async function readUnfinished(ports: RecoveryPorts, path: string, said: string[]): Promise<FoundRun | null> {
  try {
    // Old journals are many; of one that was closed nothing but its end is read.
    if (endsClosed(await ports.disk.readEnd(path, END))) return null;
    return await readWhole(ports, path, said);
  } catch (error) {
    said.push(unreadableText(path, diskReason(error)));
    return null;
  }
}

async function readWhole(ports: RecoveryPorts, path: string, said: string[]): Promise<FoundRun | null> {
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
  if (journal.entries[journal.entries.length - 1]!.say === 'closed') return null;
  const run = foundRun(journal, file, ports.moment, ports.boot);
  if (!run) said.push(brokenText(path));
  return run;
}

/** By the end that was projected when somebody was last there: one that waits for a word would never end. */
function isUnattended({ state, position }: FoundRun): boolean {
  const end = projectedEnd(settle(state, position.seenAt), position.seenAt);
  return position.at > end + UNATTENDED_AFTER;
}

async function closeUnattended({ disk, boot, moment }: RecoveryPorts, run: FoundRun, said: string[]): Promise<void> {
  const { file, position } = run;
  // A run that was over before the host ended lacks nothing but its last line.
  if (settle(run.state, position.seenAt).phase !== 'done') said.push(unattendedText(run));
  const { monotonic: mono, uptime, wallMs: wall } = moment;
  const line = lineOf({ say: 'closed', why: 'unattended', at: Math.floor(position.at), mono, uptime, wall, boot });
  if (file.torn) return;
  const open = await disk.open(file.path).catch(() => null);
  // Where it cannot be closed, it is found again the next time, and as old as now.
  await open
    ?.write(Buffer.from(line), file.length)
    .then(() => open.sync())
    .catch(() => undefined);
  await open?.close();
}
