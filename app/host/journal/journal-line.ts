/*
 * One line of a journal: a JSON object whose last field is a checksum of everything before it. The checksum shows
 * whether the line was written completely, and any program can read it. Each line after the first also has the
 * checksum of the line before, which shows lines that are missing, doubled or out of place.
 */

import { crc32 } from 'node:zlib';
import { DAY, MINUTE, type Millis } from '../../core/units.ts';
import { ROLES, type Role } from '../../wire/sharing/joining.ts';

/** The version of the lines; raised when an older program could misread them. */
export const JOURNAL_VERSION = 2;

/** From this version on, every line but the first names the one before. */
const CHAINED_FROM = 2;

/** The time of a line. `at`: ms since the run was opened; whole, except in `opened` and `back`, from which others count. */
export interface Stamp {
  readonly at: Millis;
  /** In ms: the machine's monotonic clock, its uptime, and the wall clock (since 1970, UTC). */
  readonly mono: number;
  readonly uptime: number;
  readonly wall: number;
  /** The start of the machine to which the first two belong. */
  readonly boot: string;
}

export type JournalEntry = OpenedEntry | CommandEntry | AliveEntry | BackEntry | ClosedEntry;

/** The first line of a journal. `at` is 0, except for a run that was opened again when its clock was matched. */
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
  /** The kind of screen that it was given on; older lines do not say. */
  readonly by?: CommandedBy;
  /** Who it was given by; older lines do not say. */
  readonly from?: CommandedFrom;
  readonly command: Readonly<Record<string, unknown>>;
}

const COMMANDERS = ['desk', 'remote'] as const;

export type CommandedBy = (typeof COMMANDERS)[number];

/** As the coach let them in: `device` names the key, null for this machine without one. */
export interface CommandedFrom {
  readonly role: Role;
  readonly name: string;
  readonly device: string | null;
}

/** A sign of life with the leaves handed over since the last one, as lane and time. The fold ignores it. */
export interface AliveEntry extends Stamp {
  readonly say: 'alive';
  readonly leaves: readonly (readonly [lane: number, at: Millis])[];
}

/** The run was taken up again: the host was not running from the line before to this one. */
export interface BackEntry extends Stamp {
  readonly say: 'back';
  /** The clock that told the time between. */
  readonly by: 'monotonic' | 'wall';
}

/** The run is closed. A mark made later is followed by another of these. */
export interface ClosedEntry extends Stamp {
  readonly say: 'closed';
  readonly why: ClosedWhy;
  /** The coach has been told that the run was left unattended. Such a line follows the one without this field. */
  readonly told?: true;
}

const CLOSED_WHYS = ['done', 'left', 'replaced', 'unattended', 'not begun'] as const;

/** Done; left by the coach after a crash; replaced by another run; nobody came back to it; never begun. */
export type ClosedWhy = (typeof CLOSED_WHYS)[number];

/** A line to be written. */
export interface WrittenLine {
  /** With its newline. */
  readonly text: string;
  /** Its checksum, which the next line names. */
  readonly sum: string;
}

/** The line for an entry. `after`: the checksum of the line before; null for the first. */
export function lineOf(entry: JournalEntry, after: string | null): WrittenLine {
  const body = JSON.stringify(after === null ? entry : { ...entry, after });
  const sum = checksum(body);
  return { text: `${body.slice(0, -1)},"sum":"${sum}"}\n`, sum };
}

/** A line that was read. */
export interface ReadLine {
  readonly entry: JournalEntry;
  readonly sum: string;
  /** The checksum of the line before that this line names; null for none. */
  readonly after: string | null;
}

/** Reads a line without its newline; null if it was not written completely or is not a journal line. Never throws. */
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

/** Whether a line really follows `before` in a journal of this version. */
export function followsOn({ after }: ReadLine, before: ReadLine, version: number): boolean {
  return after === null ? version < CHAINED_FROM : after === before.sum;
}

/** The version that a first line claims, whether or not this program can read it; null for none. */
export function versionOf(line: string): number | null {
  const version = parsed(line)?.['journal'];
  return typeof version === 'number' ? version : null;
}

function checksum(body: string): string {
  return crc32(body).toString(16).padStart(8, '0');
}

/** The largest time in a line, in ms: the end of the year 9999 by the wall clock. */
const LATEST = 253_402_300_799_999;

/** The longest id of a run or command, in characters, as on the wire. */
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
      return isId(value['id']) && isCommander(value['by']) && isFrom(value['from']) && isObject(value['command']);
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

function isCommander(value: unknown): boolean {
  return value === undefined || COMMANDERS.some((kind) => kind === value);
}

function isFrom(value: unknown): boolean {
  if (value === undefined) return true;
  if (!isObject(value) || !isText(value['name'])) return false;
  return ROLES.some((role) => role === value['role']) && (value['device'] === null || isId(value['device']));
}

/** Whether a version is one that this program can read; higher ones are refused before. */
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
