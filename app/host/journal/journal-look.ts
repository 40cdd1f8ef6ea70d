/*
 * A first look at the journals of a folder, however many there are: of one that was closed nothing but its
 * end is read, and several are read at a time.
 */

import { unreadableText } from '../recovery/recovery-text.ts';
import { diskReason, type Disk } from './disk.ts';
import { lastEntryOf, readJournal, type JournalLines } from './journal-text.ts';
import { isToBeTold } from '../recovery/unattended.ts';

/** Not closed; or closed, but with something behind its end, or while the coach is still to be told that nobody came back to it. */
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

/** A closing line is far shorter, in bytes. */
const END = 1024;

/** So many are read at a time: the system does no more than a few at once anyway. */
const AT_A_TIME = 16;

/** In the order of the paths. Never rejects. */
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
