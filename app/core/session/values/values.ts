/*
 * Reads the values of a line and lists of them with `/`: distances, intervals, rests and targets, each with its
 * place. A list is spread over the lanes later, when all lanes are known.
 */

import type { LengthUnit, Millis, Tenths } from '../../units.ts';
import { HOUR, SECOND } from '../../units.ts';
import { reading } from '../../words/time/reading.ts';
import type { Hold, Interval } from '../session.ts';
import { isFlaw, type Flaw } from './flaw.ts';
import { match, shorten, startsTime, timeAt, tokenAt } from './time.ts';

/** One value or several; `at` has the index of each. */
export interface Listed<Value> {
  readonly values: readonly Value[];
  readonly at: readonly number[];
  /** The index after the last value. */
  readonly end: number;
}

/** A list of values for lanes for each rep. */
export interface RepListed<Value> {
  /** At least one; one alone is every rep's. */
  readonly lists: readonly Listed<Value>[];
  readonly end: number;
}

export interface Read<Value> {
  readonly value: Value;
  readonly end: number;
}

export interface WrittenDistance {
  readonly tenths: Tenths;
  /** The unit as written after the distance, or after the last one of its list. */
  readonly unit: LengthUnit | null;
}

/** A number that may turn out to be a count. */
export interface WrittenNumber extends WrittenDistance {
  readonly digits: string;
}

/** A bare `5` for an interval is more likely a slip (for 5 minutes, or a count) than five seconds. */
const LEAST_BARE_INTERVAL: Millis = 10 * SECOND;
const LEAST_DISTANCE: Tenths = 50;
const MOST_DISTANCE: Tenths = 100_000;

const COMMA = /\s*,\s*/y;
/** A number of seconds that might as well be words: `25`, `30 s`. */
const BARE_NUMBER = /^\d+(?:\.\d)?\s*(?:s|secs?|seconds?)?$/i;
/** What tells that a bare number behind a comma is a value: the next one, a word with a value of its own, or the end. */
const LIST_GOES_ON = /\s*(?:$|[,/@]|(?:on|hold)(?![\p{L}\p{N}'’-]))/iuy;
const SLASH = /\s*\/\s*/y;
const NUMBER = /\d+(?:\.\d+)?/y;
const NOT_A_NUMBER = /[:.]\d/y;
/** Units spelled out count too: `100 yards` in a pool of metres would otherwise be 100 m with the word "yards". */
const UNIT = /\s*(?:(yd|y|yds|yards?)|(m|metres?|meters?))(?![\p{L}\p{N}]|[-\u2010-\u2015\u2212]\p{L})/iuy;
/** `100s`, as in "twenty minutes of 100s". */
const PLURAL = /s(?![\p{L}\p{N}-])/iuy;
const BASE = /base(?![\p{L}\p{N}]|-\p{L})/iuy;
const CSS = /css(?![\p{L}\p{N}]|-\p{L})/iuy;
const PACES = [
  ['base', BASE],
  ['css', CSS],
] as const;
const SIGN = /\s*([+\-\u2010-\u2015\u2212])\s*/y;

/** Values with `/` between them, at least one. */
export function listAt<Value>(
  text: string,
  start: number,
  read: (text: string, at: number) => Read<Value> | Flaw,
): Listed<Value> | Flaw {
  const values: Value[] = [];
  const at: number[] = [];
  for (let next = start; ;) {
    const one = read(text, next);
    if (isFlaw(one)) return one;
    values.push(one.value);
    at.push(next);
    const slash = match(SLASH, text, one.end);
    if (!slash) return { values, at, end: one.end };
    next = one.end + slash[0].length;
  }
}

/** A number with its unit, if any: a distance or a count, depending on what follows. Its range is not checked. */
export function numberAt(text: string, at: number): Read<WrittenNumber> | Flaw {
  const digits = match(NUMBER, text, at)?.[0];
  if (digits === undefined) return { at, message: 'a number is missing: write one on each side of /' };
  const behind = at + digits.length;
  if (match(NOT_A_NUMBER, text, behind)) {
    return { at, message: `${shorten(text.slice(at))} is in the place of a count or a distance: write a number there` };
  }
  const unit = match(UNIT, text, behind);
  const end = behind + (unit ?? match(PLURAL, text, behind) ?? [''])[0].length;
  const tenths = Math.round(Number(digits) * 10);
  return { value: { digits, tenths, unit: unit ? (unit[1] ? 'yd' : 'm') : null }, end };
}

/** Reads a distance and checks it by itself; `distanceFlaw` checks it against the pool. */
export function distanceAt(text: string, at: number): Read<WrittenDistance> | Flaw {
  const read = numberAt(text, at);
  if (isFlaw(read)) return read;
  const { digits } = read.value;
  if (/\.\d\d/.test(digits))
    return { at, message: `${shorten(digits)} has too many decimals: write a distance with at most one` };
  if (!(Number(digits) * 10 <= MOST_DISTANCE)) {
    return { at, message: `${shorten(digits)} is too far: write a distance from 5 to 10000` };
  }
  return read;
}

/** What is wrong with distances in this pool, or null. A unit after the last of a list is for all of them. */
export function distanceFlaw(
  list: Pick<Listed<WrittenDistance>, 'values' | 'at'>,
  pool: { readonly length: number; readonly unit: LengthUnit },
): Flaw | null {
  const shared = list.values[list.values.length - 1]!.unit;
  for (const [index, distance] of list.values.entries()) {
    const at = list.at[index]!;
    const unit = distance.unit ?? shared;
    const number = distance.tenths / 10;
    if (unit !== null && unit !== pool.unit) {
      const message = `${number} ${unit} in a pool measured in ${pool.unit}: write distances in ${pool.unit}`;
      return { at, message, checkedAgainst: 'pool' };
    }
    // Half a percent is allowed for pools such as 33.33 m.
    if (unit === null && distance.tenths * 10 * 1000 < pool.length * 995) {
      const message = `${number} is less than one length: write ${number} ${pool.unit} if it is a distance, or count x distance`;
      return distance.tenths < LEAST_DISTANCE ? { at, message } : { at, message, checkedAgainst: 'pool' };
    }
    if (distance.tenths < LEAST_DISTANCE)
      return { at, message: `${number} is too short: write a distance from 5 to 10000` };
  }
  return null;
}

/** Whether an interval's value stands at an index: a number, `:` and a digit, `base` or `css`. */
export function startsInterval(text: string, at: number): boolean {
  return startsTime(text, at) || startsPace(text, at);
}

/** A TIME above 0 and at most 1:00:00, or base or css with what is added to it. */
export function intervalAt(text: string, at: number): Read<Interval> | Flaw {
  for (const [kind, word] of PACES) {
    const found = match(word, text, at);
    if (!found) continue;
    const plus = signedTimeAt(text, at + found[0].length, kind);
    return isFlaw(plus) ? plus : { value: { kind, plus: plus.value }, end: plus.end };
  }
  const time = timeAt(text, at);
  if (isFlaw(time)) return time;
  if (time.bare && time.ms < LEAST_BARE_INTERVAL) {
    const seconds = time.ms / SECOND;
    const message = `${seconds} is too short for an interval: write ${reading(time.ms * 60)} for minutes, or 0:0${seconds}`;
    return { at, message };
  }
  const wrong = intervalFlaw(time.ms, at);
  return wrong ?? { value: { kind: 'time', time: time.ms }, end: time.end };
}

function startsPace(text: string, at: number): boolean {
  return PACES.some(([, word]) => match(word, text, at) !== null);
}

/** Lists with commas between them, one a rep: `1:30, 1:25, 1:20`. A comma may also end the value and begin words. */
export function repListAt<Value>(
  text: string,
  start: number,
  read: (text: string, at: number) => Read<Value> | Flaw,
): RepListed<Value> | Flaw {
  const first = listAt(text, start, read);
  if (isFlaw(first)) return first;
  const lists = [first];
  for (let end = first.end; ;) {
    const next = behindListComma(text, end);
    if (next < 0) return { lists, end };
    const list = listAt(text, next, read);
    if (isFlaw(list)) return list;
    lists.push(list);
    end = list.end;
  }
}

/** Where the list goes on behind a comma at an index; −1 where it does not. */
function behindListComma(text: string, at: number): number {
  const comma = match(COMMA, text, at);
  if (!comma) return -1;
  const next = at + comma[0].length;
  if (startsPace(text, next)) return next;
  if (!startsTime(text, next)) return -1;
  const time = timeAt(text, next);
  const token = tokenAt(text, next);
  if (isFlaw(time)) return token.includes(':') ? next : -1;
  return !BARE_NUMBER.test(text.slice(next, time.end)) || match(LIST_GOES_ON, text, time.end) ? next : -1;
}

/** What is wrong with an interval of so many ms, or null. */
export function intervalFlaw(ms: Millis, at: number): Flaw | null {
  if (ms <= 0) return { at, message: 'an interval of 0:00 or less: write one above 0:00' };
  if (ms > HOUR) return { at, message: 'an interval of more than an hour: write 1:00:00 at most' };
  return null;
}

export function restAt(text: string, at: number): Read<Millis> | Flaw {
  const time = timeAt(text, at);
  return isFlaw(time) ? time : { value: time.ms, end: time.end };
}

/** Whether a target's value is at an index: a number, `:` and a digit, or `css`. */
export function startsHold(text: string, at: number): boolean {
  return startsTime(text, at) || match(CSS, text, at) !== null;
}

export function holdAt(text: string, at: number): Read<Hold> | Flaw {
  const css = match(CSS, text, at);
  if (css) {
    const plus = signedTimeAt(text, at + css[0].length, 'css');
    return isFlaw(plus) ? plus : { value: { kind: 'css', plus: plus.value }, end: plus.end };
  }
  const time = timeAt(text, at);
  if (isFlaw(time)) return time;
  if (time.ms === 0) return { at, message: 'a target of 0:00: write one above 0:00' };
  return { value: { kind: 'time', time: time.ms }, end: time.end };
}

/** `+10`, `-0:05`, or nothing (0). A dash without a number after it is a dash between words. */
function signedTimeAt(text: string, at: number, word: string): Read<Millis> | Flaw {
  const sign = match(SIGN, text, at);
  if (!sign) return { value: 0, end: at };
  const behind = at + sign[0].length;
  if (!startsTime(text, behind)) {
    if (sign[1] !== '+') return { value: 0, end: at };
    return { at, message: `seconds are missing after +: write ${word}+5` };
  }
  const time = timeAt(text, behind);
  if (isFlaw(time)) return time;
  return { value: sign[1] === '+' ? time.ms : -time.ms, end: time.end };
}
