/*
 * Where swimmers' names may stand in the data folder, and what each of these files is without one.
 */

import { basename, join } from 'node:path';
import type { Afterwards } from '../../../core/record/afterwards.ts';
import type { NamePattern } from '../../../core/session/names/name-pattern.ts';
import { textWithoutName, wordsWithoutName } from '../../../core/session/names/without-name.ts';
import { AFTERWARDS_VERSION, afterwardsFile } from '../../../wire/records/afterwards.ts';
import { codeOf, type Disk } from '../../journal/disk.ts';
import { freeName, isHalfWritten, nameInFile, nameKey, SUFFIX } from '../../library/session-name.ts';
import { runsFolder } from '../../lock/data-folder.ts';
import { isInBytes, journalWithoutName } from './journal-without-name.ts';
import { isJournal } from '../run-files.ts';

/** One file that has the name, and what becomes of it. */
export type NamePlace = { readonly path: string; readonly of: 'run' | 'text' | 'other' } & (
  | {
      readonly kind: 'write';
      readonly bytes: Uint8Array;
      /** Where it has the name in its own. */ readonly to?: string;
    }
  | { readonly kind: 'remove' }
  /** A sentence. */
  | { readonly kind: 'leave'; readonly why: string }
);

/** The folders of texts: sessions, pieces, and what was discarded of both. */
export function textFolders(data: string): readonly string[] {
  return ['sessions', 'pieces', join('bin', 'sessions'), join('bin', 'pieces')].map((each) => join(data, each));
}

/** Those files of the data folder itself that may have names, with what a cut off write or a set aside file left of them. */
export async function listsIn(disk: Disk, data: string): Promise<readonly string[]> {
  const names = await disk.list(data);
  return names.filter((name) => /^(squads|library)\.json/.test(name)).map((name) => join(data, name));
}

/** All files that have the name. Rejects with the system's reason where one cannot be read. */
export async function placesOf(disk: Disk, data: string, name: NamePattern): Promise<readonly NamePlace[]> {
  const places: NamePlace[] = [];
  const runs = runsFolder(data);
  for (const file of await disk.list(runs)) places.push(...(await inRuns(disk, join(runs, file), name)));
  for (const folder of textFolders(data)) {
    const taken = new Set(await disk.list(folder));
    for (const file of [...taken]) places.push(...(await inTexts(disk, folder, file, taken, name)));
  }
  for (const path of await listsIn(disk, data)) places.push(...(await inList(disk, path, name)));
  return places;
}

async function inRuns(disk: Disk, path: string, name: NamePattern): Promise<readonly NamePlace[]> {
  const bytes = await contentOf(disk, path);
  if (!bytes) return [];
  if (path.endsWith('.after.json')) return inAfterwards(path, bytes, name);
  if (!isJournal(path)) return isInBytes(bytes, name) ? [{ path, of: 'other', kind: 'remove' }] : [];
  const without = journalWithoutName(bytes, name);
  switch (without.kind) {
    case 'same':
      return [];
    case 'changed':
      return [{ path, of: 'run', kind: 'write', bytes: without.bytes }];
    case 'no journal':
      return [{ path, of: 'run', kind: 'remove' }];
    case 'newer':
      return [{ path, of: 'run', kind: 'leave', why: newerText(path) }];
    case 'needed':
      return [{ path, of: 'run', kind: 'leave', why: neededText(path) }];
  }
}

function inAfterwards(path: string, bytes: Uint8Array, name: NamePattern): readonly NamePlace[] {
  const value = jsonOf(bytes);
  const { version } = Object(value) as { readonly version?: unknown };
  const isNewer = Number.isSafeInteger(version) && Number(version) > AFTERWARDS_VERSION;
  const read = afterwardsFile.safeParse(value);
  if (!read.success) {
    if (!isInBytes(bytes, name)) return [];
    // What is damaged is shown nowhere, and is of no use without the name either.
    return [{ path, of: 'run', ...(isNewer ? { kind: 'leave', why: newerText(path) } : { kind: 'remove' }) }];
  }
  const without = { ...read.data, ...addedWithout(read.data, name) };
  if (JSON.stringify(without) === JSON.stringify(read.data)) return [];
  return [{ path, of: 'run', kind: 'write', bytes: jsonBytes(without) }];
}

/** Whoever was there stays counted. */
function addedWithout({ marks, notes, attendance }: Afterwards, name: NamePattern): Partial<Afterwards> {
  return {
    marks: marks.map((mark) => ({ ...mark, words: wordsWithoutName(mark.words, name, 200) })),
    notes: notes.map((note) => wordsWithoutName(note, name, 2000)),
    attendance:
      attendance &&
      attendance.map((lane) => {
        const names = lane.names?.filter((each) => !name.is(each)) ?? [];
        return { ...lane, names: names.length > 0 ? names.map((each) => wordsWithoutName(each, name, 100)) : null };
      }),
  };
}

async function inTexts(
  disk: Disk,
  folder: string,
  file: string,
  taken: Set<string>,
  name: NamePattern,
): Promise<readonly NamePlace[]> {
  const path = join(folder, file);
  if (isHalfWritten(file)) return [{ path, of: 'other', kind: 'remove' }];
  const own = nameInFile(file);
  if (own === null) return [];
  const bytes = await contentOf(disk, path);
  if (!bytes) return [];
  const text = textIn(bytes);
  const wanted = wordsWithoutName(own, name);
  if (text === null) {
    return isInBytes(bytes, name) || wanted !== own
      ? [{ path, of: 'text', kind: 'leave', why: `${file} has the name and is no plain text: it is left as it is.` }]
      : [];
  }
  const without = textWithoutName(text, name);
  if (wanted === own) return without === text ? [] : [{ path, of: 'text', kind: 'write', bytes: Buffer.from(without) }];
  const keys = new Set([...taken].map((each) => nameKey(nameInFile(each) ?? each)));
  const free = freeName(wanted, keys) + SUFFIX;
  taken.add(free);
  return [{ path, of: 'text', kind: 'write', bytes: Buffer.from(without), to: join(folder, free) }];
}

/** Of a list in JSON, whatever it is, each text in it. */
async function inList(disk: Disk, path: string, name: NamePattern): Promise<readonly NamePlace[]> {
  const bytes = await contentOf(disk, path);
  if (!bytes) return [];
  const value = jsonOf(bytes);
  if (value === undefined || !path.endsWith('.json')) {
    return isInBytes(bytes, name) ? [{ path, of: 'other', kind: 'remove' }] : [];
  }
  const without = jsonBytes(valueWithout(value, name));
  return jsonBytes(value).equals(without) ? [] : [{ path, of: 'other', kind: 'write', bytes: without }];
}

function valueWithout(value: unknown, name: NamePattern): unknown {
  if (typeof value === 'string') return textWithoutName(value, name);
  if (Array.isArray(value)) return value.map((each) => valueWithout(each, name));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, each]) => [wordsWithoutName(key, name), valueWithout(each, name)]),
  );
}

/** null for what is gone, or is no file. */
async function contentOf(disk: Disk, path: string): Promise<Uint8Array | null> {
  try {
    return await disk.read(path);
  } catch (error) {
    if (['ENOENT', 'EISDIR', 'NOT_ORDINARY'].includes(codeOf(error))) return null;
    throw error;
  }
}

function jsonBytes(value: unknown): Buffer {
  return Buffer.from(`${JSON.stringify(value, null, 2)}\n`);
}

function jsonOf(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(Buffer.from(bytes).toString('utf8'));
  } catch {
    return undefined;
  }
}

function textIn(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}

function newerText(path: string): string {
  return `${basename(path)} is of a newer Lanecall and left as it is: delete the name with that newer version too.`;
}

function neededText(path: string): string {
  return (
    `In the record ${basename(path)} the name is also a word by which the session was read: it is left as it is. ` +
    'Delete that run, if the name must go there too.'
  );
}
