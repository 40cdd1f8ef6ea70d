/*
 * Times of day in settings: `19:30`, `7:30 pm`, `7 pm`, and both of a session on one line, `19:30-20:30`.
 */

import type { MinuteOfDay } from '../../units.ts';
import { isFlaw, type Flaw } from './flaw.ts';
import { valueIn } from '../line/setting-line.ts';

export interface TimeOfDay {
  readonly minute: MinuteOfDay;
  /** Whether am or pm says which half of the day it is. */
  readonly half: boolean;
}

/** The hour as written, before am or pm is known. */
interface Written {
  readonly hour: number;
  readonly minute: number;
  readonly colon: boolean;
  readonly half: 'am' | 'pm' | null;
}

const TIME = /^(\d{1,2})(?::(\d\d))?(?:\s*(am|pm)(?![\p{L}\p{N}]))?/iu;
const TO = /^\s*(?:[-\u2010-\u2015\u2212]|to(?![\p{L}\p{N}-]))\s*/iu;
const NOON = 12;
const HALF_DAY: MinuteOfDay = NOON * 60;

/** One time that ends the line: minutes after midnight. */
export function readTimeOfDay(text: string, at: number): TimeOfDay | Flaw {
  const found = TIME.exec(text.slice(at));
  const time = found && at + found[0].length === text.length ? timeOf(writtenOf(found)) : null;
  return time ?? noTime(text, at);
}

/** `19:30`, or `19:30-20:30` (or `to`): the start, and the finish where it stands there too. */
export function readStart(
  text: string,
  at: number,
): { readonly start: TimeOfDay; readonly finish: TimeOfDay | null } | Flaw {
  const first = TIME.exec(text.slice(at));
  const to = first && TO.exec(text.slice(at + first[0].length));
  if (!to) {
    const start = readTimeOfDay(text, at);
    return isFlaw(start) ? start : { start, finish: null };
  }
  const finishAt = at + first[0].length + to[0].length;
  const finish = readTimeOfDay(text, finishAt);
  if (isFlaw(finish)) return finish;
  const written = writtenOf(first);
  // One am or pm at the end goes for both.
  const start = written.half || !finish.half ? timeOf(written) : startBefore(written, finish.minute);
  if (!start) return noTime(text.slice(0, at + first[0].length), at);
  const flaw = start.half && !finish.half ? halfFlaw(finish, finishAt) : null;
  return flaw ?? { start, finish };
}

/** What is wrong with a time without am or pm where the other one has it; null where it can be meant one way only. */
export function halfFlaw({ minute }: TimeOfDay, at: number): Flaw | null {
  if (minute >= HALF_DAY + 60) return null;
  return { at, message: 'am or pm is missing: the other time of the session has it, so write it here too' };
}

/** In the half of the day of the finish, or in the other one where it would not be before it. */
function startBefore(written: Written, finish: MinuteOfDay): TimeOfDay | null {
  const half = finish >= HALF_DAY ? 'pm' : 'am';
  const same = timeOf({ ...written, half });
  if (!same || same.minute < finish) return same;
  return timeOf({ ...written, half: half === 'pm' ? 'am' : 'pm' });
}

function writtenOf([, hour, minute, half]: RegExpExecArray): Written {
  return {
    hour: Number(hour),
    minute: Number(minute ?? 0),
    colon: minute !== undefined,
    half: half ? (half.toLowerCase() as 'am' | 'pm') : null,
  };
}

function timeOf({ hour, minute, colon, half }: Written): TimeOfDay | null {
  if (minute > 59) return null;
  if (half === null) return colon && hour <= 23 ? { minute: hour * 60 + minute, half: false } : null;
  if (hour < 1 || hour > NOON) return null;
  return { minute: ((hour % NOON) + (half === 'pm' ? NOON : 0)) * 60 + minute, half: true };
}

function noTime(text: string, at: number): Flaw {
  const message = `${valueIn(text, at)} is not a time of day: write 0:00 to 23:59, as in 19:30, or 7:30 pm`;
  return { at, message };
}
