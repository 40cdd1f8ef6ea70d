/*
 * One line of a journal: a JSON object whose last field is the checksum of all before it, so that what
 * was written whole can be told from what was not, and any program can read it.
 */

import { crc32 } from 'node:zlib';
import type { Millis } from '../core/units.ts';

/** The form of the lines; raised when an older program could misread them. */
export const JOURNAL_VERSION = 1;

/** The moment of a line. `at` is since the run was opened; whole, but for `opened` and `back`, which are what others count from. */
export interface Stamp {
  readonly at: Millis;
  /** In ms: the machine's monotonic clock, its uptime, and the wall clock since 1970 (UTC). */
  readonly mono: number;
  readonly uptime: number;
  readonly wall: number;
  /** Which start of the machine the first two belong to. */
  readonly boot: string;
}

export type JournalEntry = OpenedEntry | CommandEntry | AliveEntry | BackEntry | ClosedEntry;

/** The first line of a journal, `at` 0. */
export interface OpenedEntry extends Stamp {
  readonly say: 'opened';
  readonly journal: number;
  readonly run: string;
  readonly text: string;
  readonly lanesText: string | null;
  readonly clockPhase: Millis;
  readonly openedAtTimeOfDay: Millis;
}

/** An accepted command. */
export interface CommandEntry extends Stamp {
  readonly say: 'command';
  readonly id: string;
  readonly command: Readonly<Record<string, unknown>>;
}

/** A sign of life with the leaves handed over since the last, as lane and time; takes no part in the fold. */
export interface AliveEntry extends Stamp {
  readonly say: 'alive';
  readonly leaves: readonly (readonly [lane: number, at: Millis])[];
}

/** The run was taken up again: from the last line before until here nobody was there. */
export interface BackEntry extends Stamp {
  readonly say: 'back';
  /** The clock by which the time between was found. */
  readonly by: 'monotonic' | 'wall';
}

/** Nothing more is to come; a mark made later is followed by another of these. */
export interface ClosedEntry extends Stamp {
  readonly say: 'closed';
  readonly why: ClosedWhy;
  /** The coach has been told that it was left unattended; such a line comes behind the one without it. */
  readonly told?: true;
}

/** Over; left by the coach after a crash; another was opened in its place; nobody came back to it; never begun. */
export type ClosedWhy = 'done' | 'left' | 'replaced' | 'unattended' | 'not begun';

/** The line, its newline included. */
export function lineOf(entry: JournalEntry): string {
  const body = JSON.stringify(entry);
  return `${body.slice(0, -1)},"sum":"${checksum(body)}"}\n`;
}

/** What a line without its newline says; null where it was not written whole, or is none. Never throws. */
export function entryOf(line: string): JournalEntry | null {
  const parts = /^(\{.*),"sum":"([0-9a-f]{8})"\}$/s.exec(line);
  if (!parts) return null;
  const body = `${parts[1]}}`;
  if (checksum(body) !== parts[2]) return null;
  const value = parsed(body);
  return value && isEntry(value) ? value : null;
}

/** The version that a first line claims to be of, whether or not it can be understood; null for none. */
export function versionOf(line: string): number | null {
  const version = parsed(line)?.['journal'];
  return typeof version === 'number' ? version : null;
}

function checksum(body: string): string {
  return crc32(body).toString(16).padStart(8, '0');
}

type Fields = Readonly<Record<string, unknown>>;

function parsed(text: string): Fields | null {
  try {
    const value: unknown = JSON.parse(text);
    return isObject(value) ? value : null;
  } catch {
    return null;
  }
}

function isEntry(value: Fields): value is Fields & JournalEntry {
  const times = ['at', 'mono', 'uptime', 'wall'].every((name) => Number.isFinite(value[name]));
  return times && typeof value['boot'] === 'string' && hasOwnFields(value);
}

function hasOwnFields(value: Fields): boolean {
  const isText = (name: string): boolean => typeof value[name] === 'string';
  switch (value['say']) {
    case 'opened':
      return (
        isText('run') &&
        isText('text') &&
        (isText('lanesText') || value['lanesText'] === null) &&
        ['clockPhase', 'openedAtTimeOfDay'].every((name) => Number.isSafeInteger(value[name]))
      );
    case 'command':
      return isText('id') && isObject(value['command']);
    case 'alive':
      return Array.isArray(value['leaves']);
    case 'back':
      return isText('by');
    case 'closed':
      return isText('why');
    default:
      return false;
  }
}

function isObject(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
