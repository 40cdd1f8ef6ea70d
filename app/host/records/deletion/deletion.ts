/*
 * Deleting, for good. What is to be deleted is written down first, in a file of the data folder; from then on it counts
 * as deleted. Whatever cuts it off, it is gone on with at the next start or look, until the file is gone too.
 */

import { basename, join } from 'node:path';
import { namePattern } from '../../../core/session/names/name-pattern.ts';
import { DELETION_VERSION, deletionFile, type ToDelete } from '../../../wire/records/deletion.ts';
import type { Deleted } from '../../../wire/records/records.ts';
import { codeOf, diskReason, type Disk } from '../../journal/disk.ts';
import type { Guard } from '../../journal/run-file.ts';
import { isHalfWritten, nameInFile } from '../../library/session-name.ts';
import { runsFolder } from '../../lock/data-folder.ts';
import { listsIn, placesOf, textFolders, type NamePlace } from './name-places.ts';
import { isJournal, namesOfRun } from '../run-files.ts';

export interface DeletionPorts {
  readonly disk: Disk;
  /** The data folder. */
  readonly data: string;
  readonly guard: Guard;
}

export function deletionPath(data: string): string {
  return join(data, 'deleting.json');
}

/** Rejects with the system's reason; then it may be in part done, and is gone on with later. */
export async function deleteForGood(ports: DeletionPorts, what: ToDelete): Promise<Deleted> {
  const { disk, data, guard } = ports;
  await guard.check();
  const text = JSON.stringify({ version: DELETION_VERSION, delete: what }, null, 2);
  await disk.replace(deletionPath(data), Buffer.from(`${text}\n`));
  return carryOut(ports, what);
}

/** Goes on with what was cut off. A sentence where that is still not done; null where nothing is left. Never rejects. */
export async function finishDeletion(ports: DeletionPorts): Promise<string | null> {
  const path = deletionPath(ports.data);
  try {
    const what = toDeleteIn(await ports.disk.read(path));
    if (what) await carryOut(ports, what);
    return what ? null : `${path} cannot be read by this Lanecall: what was to be deleted may still be there.`;
  } catch (error) {
    return codeOf(error) === 'ENOENT' ? null : unfinishedText(diskReason(error));
  }
}

function toDeleteIn(bytes: Uint8Array): ToDelete | null {
  try {
    const read = deletionFile.safeParse(JSON.parse(Buffer.from(bytes).toString('utf8')));
    return read.success ? read.data.delete : null;
  } catch {
    return null;
  }
}

export function unfinishedText(reason: string): string {
  return `What was to be deleted is in part still there (${reason}): Lanecall goes on with it at the next start, or when you look at the history again.`;
}

async function carryOut(ports: DeletionPorts, what: ToDelete): Promise<Deleted> {
  const { disk, data } = ports;
  const deleted = await carryOutPart(ports, what);
  await ports.guard.check();
  await disk.removeAll([deletionPath(data)]);
  return deleted;
}

function carryOutPart(ports: DeletionPorts, what: ToDelete): Promise<Deleted> {
  switch (what.what) {
    case 'runs':
      return deleteRuns(ports, what.stems);
    case 'name':
      return deleteName(ports, what.name);
    case 'everything':
      return deleteEverything(ports);
  }
}

async function deleteRuns({ disk, data, guard }: DeletionPorts, stems: readonly string[]): Promise<Deleted> {
  const folder = runsFolder(data);
  const names = await disk.list(folder);
  await guard.check();
  await disk.removeAll(stems.flatMap((stem) => namesOfRun(stem, names)).map((name) => join(folder, name)));
  return { runs: stems.length, texts: 0, left: [] };
}

async function deleteName({ disk, data, guard }: DeletionPorts, name: string): Promise<Deleted> {
  const pattern = namePattern(name);
  const places = pattern ? await placesOf(disk, data, pattern) : [];
  for (const place of places) {
    await guard.check();
    await changeOne(disk, place);
  }
  const runs = new Set(
    places.filter(({ of, kind }) => of === 'run' && kind !== 'leave').map(({ path }) => runOf(path)),
  );
  const texts = places.filter(({ of, kind }) => of === 'text' && kind !== 'leave').length;
  return { runs: runs.size, texts, left: places.flatMap((place) => (place.kind === 'leave' ? place.why : [])) };
}

async function changeOne(disk: Disk, place: NamePlace): Promise<void> {
  const { path } = place;
  if (place.kind === 'leave') return;
  if (place.kind === 'remove') return disk.removeAll([path]);
  await disk.replace(path, place.bytes);
  if (place.to !== undefined) await disk.move([{ from: path, to: place.to }]);
}

function runOf(path: string): string {
  return basename(path).replace(/\.(jsonl|after\.json)$/, '');
}

async function deleteEverything({ disk, data, guard }: DeletionPorts): Promise<Deleted> {
  const folder = runsFolder(data);
  const runs = [...(await disk.list(folder))].sort((a, b) => Number(isJournal(b)) - Number(isJournal(a)));
  const texts: string[] = [];
  for (const each of textFolders(data)) {
    const names = (await disk.list(each)).filter((name) => nameInFile(name) !== null || isHalfWritten(name));
    texts.push(...names.map((name) => join(each, name)));
  }
  const lists = await listsIn(disk, data);
  await guard.check();
  await disk.removeAll([...runs.map((name) => join(folder, name)), ...texts, ...lists]);
  return { runs: runs.filter(isJournal).length, texts: texts.length, left: [] };
}
