/*
 * Reads a whole journal from its bytes. Lines are used up to the first one that is damaged or out of place. Nothing
 * after it is used, because later commands were given on top of what is lost.
 */

import {
  followsOn,
  JOURNAL_VERSION,
  readLine,
  versionOf,
  type JournalEntry,
  type OpenedEntry,
  type ReadLine,
} from './journal-line.ts';

export type JournalText =
  | JournalLines
  /** Not even the first line is complete. */
  | { readonly kind: 'nothing' }
  /** Written by a newer program: it must not be changed. */
  | { readonly kind: 'newer'; readonly version: number };

export interface JournalLines {
  readonly kind: 'journal';
  readonly opened: OpenedEntry;
  /** All lines that are used, from the first. */
  readonly entries: readonly JournalEntry[];
  /** The offset at which each of them ends, in bytes. */
  readonly ends: readonly number[];
  /** The checksum of each. */
  readonly sums: readonly string[];
  /** How many bytes they take; what follows is not used. */
  readonly length: number;
  /** Why the next line is not used; null if there is none. */
  readonly stop: 'damaged' | 'out of place' | null;
}

/** Reads a journal. Never throws, whatever the bytes are. */
export function readJournal(bytes: Uint8Array): JournalText {
  const lines: ReadLine[] = [];
  const ends: number[] = [];
  let length = 0;
  let version = JOURNAL_VERSION;
  let stop: JournalLines['stop'] = null;
  while (length < bytes.length) {
    const end = bytes.indexOf(NEWLINE, length);
    const text = end < 0 ? '' : textOf(bytes.subarray(length, end));
    if (lines.length === 0) {
      version = versionOf(text) ?? version;
      if (version > JOURNAL_VERSION) return { kind: 'newer', version };
    }
    const line = readLine(text);
    stop = line === null ? 'damaged' : standsRight(line, lines[lines.length - 1], version) ? null : 'out of place';
    if (!line || stop !== null) break;
    lines.push(line);
    ends.push((length = end + 1));
  }
  const entries = lines.map(({ entry }) => entry);
  const [opened] = entries;
  if (opened?.say !== 'opened') return { kind: 'nothing' };
  return { kind: 'journal', opened, entries, ends, sums: lines.map(({ sum }) => sum), length, stop };
}

/** The last line of a journal that ends with these bytes; null if it is not complete in them. */
export function lastEntryOf(end: Uint8Array): JournalEntry | null {
  return lastLineOf(end)?.entry ?? null;
}

/** The same, with its checksum. */
export function lastLineOf(end: Uint8Array): ReadLine | null {
  if (end[end.length - 1] !== NEWLINE) return null;
  const begin = end.lastIndexOf(NEWLINE, end.length - 2) + 1;
  return readLine(textOf(end.subarray(begin, end.length - 1)));
}

/** The journal with only its first `count` lines. */
export function firstLines(journal: JournalLines, count: number): JournalLines {
  return {
    ...journal,
    entries: journal.entries.slice(0, count),
    ends: journal.ends.slice(0, count),
    sums: journal.sums.slice(0, count),
    length: journal.ends[count - 1]!,
  };
}

const NEWLINE = 0x0a;

/** Whether a line is in its place: only the first opens a run, and every other follows the one before. */
function standsRight(line: ReadLine, before: ReadLine | undefined, version: number): boolean {
  if ((line.entry.say === 'opened') !== (before === undefined)) return false;
  return before === undefined || followsOn(line, before, version);
}

/** Nothing, which is no line, for bytes that are no text. */
function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return '';
  }
}
