/*
 * Takes a first look at all journals of a folder. Of a closed journal only the end is read, and several are read at
 * a time.
 */

import { unreadableText } from '../recovery/recovery-text.ts';
import { diskReason, type Disk } from './disk.ts';
import { lastEntryOf, readJournal, type JournalLines } from './journal-text.ts';
import { isToBeTold } from '../recovery/unattended.ts';

/** A journal that is not closed; or has something after its end; or that the coach has not been told about yet. */
export interface UnfinishedJournal {
  readonly kind: 'unfinished';
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly journal: JournalLines;
}

export type JournalLook =
  | UnfinishedJournal
  | { readonly kind: 'closed' }
  /** Not even its first line is whole. */
  | { readonly kind: 'nothing'; readonly path: string }
  | { readonly kind: 'newer'; readonly path: string; readonly version: number }
  | { readonly kind: 'unreadable'; readonly sentence: string };

/** How many bytes to read; a closing line is far shorter. */
const END = 1024;

/** How many are read at a time: the system reads only a few at once anyway. */
const AT_A_TIME = 16;

/** The looks, in the order of the paths. Never rejects. */
export async function lookAt(disk: Disk, paths: readonly string[]): Promise<readonly JournalLook[]> {
  const looks: JournalLook[] = [];
  for (let index = 0; index < paths.length; index += AT_A_TIME) {
    looks.push(...(await Promise.all(paths.slice(index, index + AT_A_TIME).map((path) => lookAtOne(disk, path)))));
  }
  return looks;
}

async function lookAtOne(disk: Disk, path: string): Promise<JournalLook> {
  try {
    const last = lastEntryOf(await disk.readEnd(path, END));
    if (last?.say === 'closed' && !isToBeTold(last)) return { kind: 'closed' };
    const bytes = await disk.read(path);
    const journal = readJournal(bytes);
    if (journal.kind === 'nothing') return { kind: 'nothing', path };
    if (journal.kind === 'newer') return { kind: 'newer', path, version: journal.version };
    return { kind: 'unfinished', path, bytes, journal };
  } catch (error) {
    return { kind: 'unreadable', sentence: unreadableText(path, diskReason(error)) };
  }
}
