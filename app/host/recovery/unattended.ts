/*
 * Runs to which nobody came back. They are closed when they are found, and listed at every start until the coach has
 * read that. A second closing line records it, so no list is needed beside the journals.
 */

import { leavesOf } from '../../core/run/record.ts';
import { settle } from '../../core/run/settle.ts';
import { projectedEnd } from '../../core/run/hour/projection.ts';
import { MINUTE, type Millis } from '../../core/units.ts';
import type { ClockInstant } from '../time/clock.ts';
import { unattendedText } from './recovery-text.ts';
import type { Disk } from '../journal/disk.ts';
import type { FoundRun } from './found-run.ts';
import { lineOf, type ClosedEntry, type JournalEntry } from '../journal/journal-line.ts';
import { readJournal } from '../journal/journal-text.ts';
import type { FoundFile } from '../journal/run-file.ts';

/** A run past its projected end for longer than this was left unattended. */
const UNATTENDED_AFTER: Millis = 30 * MINUTE;

/** A run that was left unattended, which the coach must be told about. */
export interface UnattendedRun {
  readonly path: string;
  readonly text: string;
  /** The time of its last line, in ms since the run was opened. */
  readonly at: Millis;
}

export interface ClosingPorts {
  readonly disk: Disk;
  readonly boot: string;
  readonly moment: ClockInstant;
}

/**
 * Whether a run was left unattended. It is judged by the end that was projected when the host last ran, because a run
 * that waits for the coach's word would never end.
 */
export function isUnattended({ state, position }: FoundRun): boolean {
  const end = projectedEnd(settle(state, position.seenAt), position.seenAt);
  return position.at > end + UNATTENDED_AFTER;
}

/** Closes an unattended run; null if it was over before the host ended and only its last line was missing. */
export async function closeUnattended(ports: ClosingPorts, run: FoundRun): Promise<UnattendedRun | null> {
  const { position } = run;
  const at = Math.floor(position.at);
  const wasOver = settle(run.state, position.seenAt).phase === 'done';
  await closeFound(ports, run, wasOver ? 'done' : 'unattended');
  return wasOver ? null : unattendedRun(run, at);
}

/** Closes a run that will not be continued. */
export async function closeFound(
  ports: ClosingPorts,
  { file, position }: FoundRun,
  why: ClosedEntry['why'],
): Promise<void> {
  // Nothing may be written after a torn end that could not be cut off. The next start finds the run again.
  if (!file.torn) await writeClosing(ports, file, { at: Math.floor(position.at), why });
}

/** Whether the coach must still be told about a journal that ends with this line. */
export function isToBeTold(last: JournalEntry): boolean {
  return last.say === 'closed' && last.why === 'unattended' && last.told !== true;
}

/** `at`: the time of the last line of its journal. */
export function unattendedRun(run: FoundRun, at: Millis): UnattendedRun {
  const leaves = leavesOf(settle(run.state, run.position.seenAt));
  const lastLeave = leaves[leaves.length - 1]?.at ?? null;
  return { path: run.file.path, text: unattendedText(run, lastLeave), at };
}

/** Records that the coach has been told about these runs. If the disk refuses, the next start tells about them again. */
export async function closeAsTold(ports: ClosingPorts, runs: readonly UnattendedRun[]): Promise<void> {
  for (const { path, at } of runs) {
    const bytes = await ports.disk.read(path).catch(() => null);
    const journal = bytes && readJournal(bytes);
    if (journal?.kind !== 'journal' || journal.stop !== null) continue;
    const file = { path, bytes: bytes!, sum: journal.sums[journal.sums.length - 1]! };
    await writeClosing(ports, file, { at, why: 'unattended', told: true });
  }
}

/** Writes a closing line. If the disk refuses, the next start finds the run again. */
async function writeClosing(
  { disk, boot, moment }: ClosingPorts,
  { path, bytes: { length }, sum }: Omit<FoundFile, 'torn'>,
  fields: Pick<ClosedEntry, 'at' | 'why' | 'told'>,
): Promise<void> {
  const { monotonic: mono, uptime, wallMs: wall } = moment;
  const { text } = lineOf({ say: 'closed', ...fields, mono, uptime, wall, boot }, sum);
  const file = await disk.open(path).catch(() => null);
  await file
    ?.write(Buffer.from(text), length)
    .then(() => file.sync())
    // Half a line must not stay behind a whole journal.
    .catch(() => file.truncate(length))
    .catch(() => undefined);
  await file?.close().catch(() => undefined);
}
