/*
 * A whole journal from its bytes. Everything before the first line that was not written whole is used,
 * and nothing after it, because what came later was given on top of what is lost.
 */

import { entryOf, JOURNAL_VERSION, versionOf, type JournalEntry, type OpenedEntry } from './journal-line.ts';

export type JournalText =
  | {
      readonly kind: 'journal';
      readonly opened: OpenedEntry;
      /** All lines, the first included. */
      readonly entries: readonly JournalEntry[];
      /** How many bytes they take; what stands behind them is damaged. */
      readonly length: number;
    }
  /** Not even its first line is whole. */
  | { readonly kind: 'nothing' }
  /** Written by a newer program, and not to be touched. */
  | { readonly kind: 'newer'; readonly version: number };

/** Never throws, whatever the bytes are. */
export function readJournal(bytes: Uint8Array): JournalText {
  const entries: JournalEntry[] = [];
  let length = 0;
  for (;;) {
    const end = bytes.indexOf(NEWLINE, length);
    if (end < 0) break;
    const line = textOf(bytes.subarray(length, end));
    if (line === null) break;
    if (entries.length === 0) {
      const version = versionOf(line);
      if (version !== null && version > JOURNAL_VERSION) return { kind: 'newer', version };
    }
    const entry = entryOf(line);
    if (!entry || (entry.say === 'opened') !== (entries.length === 0)) break;
    entries.push(entry);
    length = end + 1;
  }
  const [opened] = entries;
  return opened?.say === 'opened' ? { kind: 'journal', opened, entries, length } : { kind: 'nothing' };
}

/** The last line of a journal that ends with these bytes; null where it is not whole, or longer than they are. */
export function lastEntryOf(end: Uint8Array): JournalEntry | null {
  if (end[end.length - 1] !== NEWLINE) return null;
  const begin = end.lastIndexOf(NEWLINE, end.length - 2) + 1;
  const line = textOf(end.subarray(begin, end.length - 1));
  return line === null ? null : entryOf(line);
}

const NEWLINE = 0x0a;

function textOf(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}
