/*
 * One line of a journal: a JSON object whose last field is the checksum of all before it, so that what
 * was written whole can be told from what was not, and any program can read it. From the second on each
 * names the checksum of the line before, so that a line that is missing, doubled or out of its place shows.
 */

import { crc32 } from 'node:zlib';
import { DAY, MINUTE, type Millis } from '../../core/units.ts';

/** The form of the lines; raised when an older program could misread them. */
export const JOURNAL_VERSION = 2;

/** From this form on every line but the first names the one before. */
const CHAINED_FROM = 2;

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

/** The first line of a journal; `at` is 0 but for a run that was opened anew when its clock was matched. */
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

const CLOSED_WHYS = ['done', 'left', 'replaced', 'unattended', 'not begun'] as const;

/** Over; left by the coach after a crash; another was opened in its place; nobody came back to it; never begun. */
export type ClosedWhy = (typeof CLOSED_WHYS)[number];

/** A line as it is written. */
export interface WrittenLine {
  /** Its newline included. */
  readonly text: string;
  /** Its checksum, which the next line names. */
  readonly sum: string;
}

/** `after`: the checksum of the line before; null for the first. */
export function lineOf(entry: JournalEntry, after: string | null): WrittenLine {
  const body = JSON.stringify(after === null ? entry : { ...entry, after });
  const sum = checksum(body);
  return { text: `${body.slice(0, -1)},"sum":"${sum}"}\n`, sum };
}

/** What was read of a line. */
export interface ReadLine {
  readonly entry: JournalEntry;
  readonly sum: string;
  /** The checksum of the line before, as this line has it; null where it names none. */
  readonly after: string | null;
}

/** What a line without its newline says; null where it was not written whole, or is none. Never throws. */
export function readLine(line: string): ReadLine | null {
  const parts = /^(\{.*),"sum":"([0-9a-f]{8})"\}$/s.exec(line);
  if (!parts) return null;
  const body = `${parts[1]}}`;
  if (checksum(body) !== parts[2]) return null;
  const value = parsed(body);
  if (!value || !isEntry(value)) return null;
  const after = value['after'];
  return { entry: value, sum: parts[2]!, after: typeof after === 'string' ? after : null };
}

/** Whether a line stands where it was written: behind the one before, in a journal of this version. */
export function followsOn({ after }: ReadLine, before: ReadLine, version: number): boolean {
  return after === null ? version < CHAINED_FROM : after === before.sum;
}

/** The version that a first line claims to be of, whether or not it can be understood; null for none. */
export function versionOf(line: string): number | null {
  const version = parsed(line)?.['journal'];
  return typeof version === 'number' ? version : null;
}

function checksum(body: string): string {
  return crc32(body).toString(16).padStart(8, '0');
}

/** In ms: no time of a line is later, be it by the wall clock (the end of the year 9999) or since something. */
const LATEST = 253_402_300_799_999;

/** As of a run and of a command on the wire: screens take no longer name. */
const LONGEST_ID = 64;

const HIGHEST_LANE = 20;

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
  const times = ['at', 'mono', 'uptime', 'wall'].every((name) => isWithin(value[name], LATEST));
  return times && typeof value['boot'] === 'string' && hasOwnFields(value);
}

function hasOwnFields(value: Fields): boolean {
  switch (value['say']) {
    case 'opened':
      return (
        isVersion(value['journal']) &&
        isId(value['run']) &&
        isText(value['text']) &&
        (isText(value['lanesText']) || value['lanesText'] === null) &&
        isWhole(value['clockPhase'], MINUTE - 1) &&
        isWhole(value['openedAtTimeOfDay'], DAY - 1)
      );
    case 'command':
      return isId(value['id']) && isObject(value['command']);
    case 'alive':
      return Array.isArray(value['leaves']) && value['leaves'].every(isLeave);
    case 'back':
      return value['by'] === 'monotonic' || value['by'] === 'wall';
    case 'closed':
      return CLOSED_WHYS.some((why) => why === value['why']) && (value['told'] ?? true) === true;
    default:
      return false;
  }
}

/** Of a first line that this program can read: a higher one is never come to. */
function isVersion(value: unknown): boolean {
  return isWhole(value, JOURNAL_VERSION) && value !== 0;
}

function isText(value: unknown): value is string {
  return typeof value === 'string';
}

function isId(value: unknown): boolean {
  return isText(value) && value !== '' && value.length <= LONGEST_ID;
}

/** A lane and a time. */
function isLeave(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && isWhole(value[0], HIGHEST_LANE) && isWhole(value[1], LATEST);
}

function isWithin(value: unknown, most: number): value is number {
  return typeof value === 'number' && value >= 0 && value <= most;
}

function isWhole(value: unknown, most: number): boolean {
  return isWithin(value, most) && Number.isSafeInteger(value);
}

function isObject(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
