/*
 * What the coach adds to a run, in a file of its own beside the run's journal. It is replaced as a whole, so that a
 * crash leaves the old one or the new one. What is not ours, or of a newer program, is never written over.
 */

import { basename } from 'node:path';
import { NOTHING_ADDED, type Afterwards } from '../../core/record/afterwards.ts';
import { AFTERWARDS_VERSION, afterwardsFile } from '../../wire/afterwards.ts';
import { codeOf, diskReason, type Disk } from '../journal/disk.ts';
import type { Guard } from '../journal/run-file.ts';
import type { ListedRun } from './run-list.ts';

export type AfterwardsRead =
  { readonly ok: true; readonly added: Afterwards } | { readonly ok: false; readonly why: string };

/** `….jsonl` and `….after.json`. */
export function afterwardsPath(journal: string): string {
  return `${journal.replace(/\.jsonl$/, '')}.after.json`;
}

/** Nothing added where there is no file. Never rejects. */
export async function readAfterwards(disk: Pick<Disk, 'read'>, { path, run }: PlacedRun): Promise<AfterwardsRead> {
  const file = afterwardsPath(path);
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(await disk.read(file)));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return { ok: true, added: NOTHING_ADDED };
    return { ok: false, why: leftText(file, error instanceof SyntaxError ? 'is damaged' : notReadText(error)) };
  }
  const { version } = Object(value) as { readonly version?: unknown };
  if (Number.isSafeInteger(version) && Number(version) > AFTERWARDS_VERSION) {
    return { ok: false, why: leftText(file, 'is of a newer Lanecall') };
  }
  const read = afterwardsFile.safeParse(value);
  if (!read.success || read.data.run !== run) return { ok: false, why: leftText(file, 'is not of this run') };
  const { marks, notes, attendance, effort, times } = read.data;
  return { ok: true, added: { marks, notes, attendance, effort, times } };
}

export type PlacedRun = Pick<ListedRun, 'path' | 'run'>;

export interface KeepingPorts {
  readonly disk: Disk;
  readonly guard: Guard;
}

/** Why it could not be kept, in a sentence; null where it is on the disk. Never rejects. */
export async function keepAfterwards(
  { disk, guard }: KeepingPorts,
  run: PlacedRun,
  added: Afterwards,
): Promise<string | null> {
  const before = await readAfterwards(disk, run);
  if (!before.ok) return before.why;
  const text = `${JSON.stringify({ version: AFTERWARDS_VERSION, run: run.run, ...added }, null, 2)}\n`;
  try {
    await guard.check();
    await disk.replace(afterwardsPath(run.path), Buffer.from(text));
    return null;
  } catch (error) {
    return `What you added to the run cannot be kept (${diskReason(error)}): free the disk and save it again.`;
  }
}

function leftText(file: string, why: string): string {
  return `What was added to the run in ${basename(file)} ${why}: it is left as it is and not shown.`;
}

function notReadText(error: unknown): string {
  return `cannot be read (${diskReason(error)})`;
}
