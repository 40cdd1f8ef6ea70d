/*
 * What the coach adds to a run, in a file of its own beside the run's journal. It is replaced as a whole, so that a
 * crash leaves the old one or the new one. What is not ours, or of a newer program, is never written over.
 */

import { createHash } from 'node:crypto';
import { basename } from 'node:path';
import { NOTHING_ADDED, type Afterwards } from '../../core/record/afterwards.ts';
import { AFTERWARDS_VERSION, afterwardsFile, TOUCHES_KNOWN } from '../../wire/records/afterwards.ts';
import { codeOf, diskReason, type Disk } from '../journal/disk.ts';
import { jsonIn } from '../kept-json.ts';
import type { Guard } from '../journal/run-file.ts';
import type { ListedRun } from './run-list.ts';

export type AfterwardsRead =
  | {
      readonly ok: true;
      readonly added: Afterwards;
      /** The same for the same bytes; null where there is no file. */
      readonly version: string | null;
      /** The ids of the touches that are in it, or were taken back since. */
      readonly touches: readonly string[];
    }
  | { readonly ok: false; readonly why: string };

/** `….jsonl` and `….after.json`. */
export function afterwardsPath(journal: string): string {
  return `${journal.replace(/\.jsonl$/, '')}.after.json`;
}

/** Nothing added where there is no file. Never rejects. */
export async function readAfterwards(disk: Pick<Disk, 'read'>, { path, run }: PlacedRun): Promise<AfterwardsRead> {
  const file = afterwardsPath(path);
  let bytes: Uint8Array;
  try {
    bytes = await disk.read(file);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return { ok: true, added: NOTHING_ADDED, version: null, touches: [] };
    return { ok: false, why: leftText(file, `cannot be read (${diskReason(error)})`) };
  }
  const value = jsonIn(bytes);
  if (value === null) return { ok: false, why: leftText(file, 'is damaged') };
  const { version } = Object(value) as { readonly version?: unknown };
  if (Number.isSafeInteger(version) && Number(version) > AFTERWARDS_VERSION) {
    return { ok: false, why: leftText(file, 'is of a newer Lanecall') };
  }
  const read = afterwardsFile.safeParse(value);
  if (!read.success || read.data.run !== run) return { ok: false, why: leftText(file, 'is not of this run') };
  const { marks, notes, attendance, effort, times, touches = [] } = read.data;
  return { ok: true, added: { marks, notes, attendance, effort, times }, version: versionOf(bytes), touches };
}

export type PlacedRun = Pick<ListedRun, 'path' | 'run'>;

export interface KeepingPorts {
  readonly disk: Disk;
  readonly guard: Guard;
}

export type Kept =
  | { readonly ok: true; readonly version: string }
  | {
      readonly ok: false;
      /** A sentence. */
      readonly why: string;
      /** What stands there now, where that is not what was meant to be replaced. */
      readonly changed?: { readonly added: Afterwards; readonly version: string | null };
    };

/**
 * Keeps what was added in place of what stands there at `version`, and the id of the touch that it came by, if any.
 * Nothing is written over anything else. Never rejects.
 */
export async function keepAfterwards(
  { disk, guard }: KeepingPorts,
  run: PlacedRun,
  version: string | null,
  added: Afterwards,
  touch: string | null = null,
): Promise<Kept> {
  const path = afterwardsPath(run.path);
  const before = disk.mark(path);
  const now = await readAfterwards(disk, run);
  if (!now.ok) return now;
  if (now.version !== version) return changedBy(now);
  const touches = [...now.touches, ...(touch === null ? [] : [touch])].slice(-TOUCHES_KNOWN);
  const file = { version: AFTERWARDS_VERSION, run: run.run, ...added, touches };
  const bytes = Buffer.from(`${JSON.stringify(file, null, 2)}\n`);
  try {
    await guard.check();
    await disk.replace(path, bytes, () => {
      const last = disk.mark(path);
      if (last?.changed !== before?.changed || last?.length !== before?.length) throw new ChangedMeanwhile();
    });
    return { ok: true, version: versionOf(bytes) };
  } catch (error) {
    if (error instanceof ChangedMeanwhile) {
      const last = await readAfterwards(disk, run);
      return last.ok ? changedBy(last) : last;
    }
    const why = `What you added to the run cannot be kept (${diskReason(error)}): free the disk and save it again.`;
    return { ok: false, why };
  }
}

function changedBy({ added, version }: Extract<AfterwardsRead, { ok: true }>): Kept {
  const why = 'Another window has added to this run since: look at what it wrote, and save again.';
  return { ok: false, why, changed: { added, version } };
}

class ChangedMeanwhile extends Error {}

function versionOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex').slice(0, 32);
}

function leftText(file: string, why: string): string {
  return `What was added to the run in ${basename(file)} ${why}: it is left as it is and not shown.`;
}
