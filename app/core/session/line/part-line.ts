/*
 * Reads one line of a part: a set, a timed block, a swim by time, rounds, or a talk or break. Lists are not spread
 * over the lanes yet, and nothing that depends on a lane is checked.
 */

import type { Millis } from '../../units.ts';
import { HOUR } from '../../units.ts';
import { readClauses, trimWords, type Clauses, type TimedBy } from './clauses.ts';
import { isFlaw, type Flaw } from '../values/flaw.ts';
import { restAsSwim } from './lost-meaning.ts';
import type { LanePrefix } from './lane-prefix.ts';
import { hasTimeUnit, match, primedAt, shorten, startsTime, timeAt, tokenAt } from '../values/time.ts';
import { behindTimes, hasRung, readSet, wholeCount, type Pool, type WrittenSet } from './set-line.ts';
import {
  distanceAt,
  distanceFlaw,
  listAt,
  numberAt,
  type Listed,
  type WrittenDistance,
  type WrittenNumber,
} from '../values/values.ts';

export type SwimLine = WrittenSet | WrittenBlock | WrittenTimedSwim | WrittenRounds;

export type PartLine = SwimLine | WrittenPause | WrittenLaneLines;

/** `lanes 1-3:` alone on its line. */
export interface WrittenLaneLines {
  readonly kind: 'lanes';
}

export interface WrittenBlock {
  readonly kind: 'block';
  readonly time: Millis;
  /** The index after its time. */
  readonly timeEnd: number;
  readonly distances: Listed<WrittenDistance>;
  readonly clauses: Clauses & { readonly timing: TimedBy };
}

export interface WrittenTimedSwim {
  readonly kind: 'timed-swim';
  readonly time: Millis;
  /** The index after its time. */
  readonly timeEnd: number;
  readonly words: string;
}

export interface WrittenRounds {
  readonly kind: 'rounds';
  readonly times: number;
  /** The index after its number. */
  readonly timesEnd: number;
}

export interface WrittenPause {
  readonly kind: 'talk' | 'break';
  readonly time: Millis;
  /** Where its time stands. */
  readonly timeAt: number;
  readonly timeEnd: number;
  readonly words: string;
}

const PAUSE = /^(talk|break|rest)(?![\p{L}\p{N}-])(:?)\s*/iu;
const OF = /\s+of\s*(?=\d)/iy;
const ROUNDS = /\s*(?:rounds?(?![\p{L}\p{N}-])(?:\s+of(?![\p{L}\p{N}-]))?|times(?![\p{L}\p{N}-]))\s*:?\s*/iuy;
const COLON_END = /\s*:?\s*$/y;

/** Whether a line that begins with a letter is a talk or a break, or is meant as one. */
export function isPause(text: string): boolean {
  return PAUSE.test(text);
}

/** A line of a part, `lanes` being what it begins with. */
export function readPartLine(text: string, lanes: LanePrefix | null, pool: Pool): PartLine | Flaw {
  if (!lanes) return isPause(text) ? readPause(text) : readSwimLine(text, pool);
  if (lanes.end >= text.length) return { kind: 'lanes' };
  if (isPause(text.slice(lanes.end))) {
    return { at: lanes.end, message: 'a talk or break for some lanes: everyone comes together for it' };
  }
  return readSwimLine(text, pool, lanes.end);
}

/** `talk 1:30 words`, `break 2:00`, `rest 2:00` on a line of its own. */
function readPause(text: string): WrittenPause | Flaw {
  const [opening, word, colon] = PAUSE.exec(text)!;
  const at = opening.length;
  const name = word!.toLowerCase();
  if (!startsTime(text, at)) {
    const message = `a time is missing after ${name}: write ${name}${colon} 1:30 and then what it is about`;
    return { at: text.length > at ? at : 0, message };
  }
  const time = timeAt(text, at);
  if (isFlaw(time)) return time;
  const words = trimWords(text.slice(time.end));
  return { kind: name === 'talk' ? 'talk' : 'break', time: time.ms, timeAt: at, timeEnd: time.end, words };
}

/** A line that begins with a number at `from`. */
export function readSwimLine(text: string, pool: Pool, from = 0): SwimLine | Flaw {
  if (!startsTime(text, from)) {
    const found = shorten(text.slice(from).split(/\s/)[0]!);
    return {
      at: from,
      message: `a line cannot begin with ${found}: begin a set with a number, a heading with a letter`,
    };
  }
  if (isTimed(text, from)) return readTimed(text, pool, from);
  const numbers = listAt(text, from, numberAt);
  if (isFlaw(numbers)) return numbers;
  return readRounds(text, numbers) ?? readSet(text, numbers, pool);
}

/** A time with a colon or a unit, or a bare one that `of` and a distance follow. */
function isTimed(text: string, from: number): boolean {
  const token = tokenAt(text, from);
  const end = from + token.length;
  return (
    token.includes(':') || primedAt(text, from) !== null || hasTimeUnit(text, end) || match(OF, text, end) !== null
  );
}

function readTimed(text: string, pool: Pool, from: number): WrittenBlock | WrittenTimedSwim | Flaw {
  const time = timeAt(text, from);
  if (isFlaw(time)) return time;
  if (time.ms === 0) return { at: from, message: 'a swim of 0:00: its time must be above 0' };
  const of = match(OF, text, time.end);
  if (of) return readBlock(text, { time: time.ms, timeEnd: time.end, from }, time.end + of[0].length, pool);
  if (time.ms > HOUR) return { at: from, message: 'a swim of more than an hour: its time is at most 1:00:00' };
  const rest = restAsSwim(text, from, time.end);
  if (rest) return rest;
  const clauses = readClauses(text, time.end);
  if (isFlaw(clauses)) return clauses;
  if (clauses.at !== null) {
    return {
      at: clauses.at,
      message: 'a swim by time cannot have an interval, rest or hold: its time is its interval',
    };
  }
  return { kind: 'timed-swim', time: time.ms, timeEnd: time.end, words: clauses.words };
}

function readBlock(
  text: string,
  { time, timeEnd, from }: Pick<WrittenBlock, 'time' | 'timeEnd'> & { readonly from: number },
  at: number,
  pool: Pool,
): WrittenBlock | Flaw {
  const distances = listAt(text, at, distanceAt);
  if (isFlaw(distances)) return distances;
  const flaw = distanceFlaw(distances, pool);
  if (flaw) return flaw;
  if (hasRung(text, distances.end)) {
    return { at: distances.end, message: 'a ladder in a timed block: a block repeats one distance, so write just one' };
  }
  const clauses = readClauses(text, distances.end);
  if (isFlaw(clauses)) return clauses;
  const repwise = repwiseFlaw(clauses);
  if (repwise) return repwise;
  const { timing } = clauses;
  if (timing.kind === 'untimed') {
    return {
      at: from,
      message: 'an interval or rest is missing: a timed block needs one to know how many reps fit, as in @ 1:30',
    };
  }
  return { kind: 'block', time, timeEnd, distances, clauses: { ...clauses, timing } };
}

/** How many reps of a block are swum follows from its one interval. */
function repwiseFlaw({ halves, timing, hold, at }: Clauses): Flaw | null {
  if (halves) return { at: at!, message: 'odds and evens in a timed block: its reps are all alike' };
  const list = timing.kind === 'interval' && timing.lists.length > 1 ? timing.lists : hold?.lists;
  if (!list || list.length < 2) return null;
  return {
    at: list[1]!.at[0]!,
    message: 'one value a rep in a timed block: how many reps fit follows from one interval',
  };
}

/** `3 rounds`, `3 times`, `3 x` with nothing behind; null for any other line. */
function readRounds(text: string, numbers: Listed<WrittenNumber>): WrittenRounds | Flaw | null {
  const { digits, unit } = numbers.values[0]!;
  const named = match(ROUNDS, text, numbers.end);
  // `100 round the buoys` is a set: only `1 round` may be written without the s.
  const word = named && (/rounds|times/i.test(named[0]) || digits === '1') ? named : null;
  const times = behindTimes(text, numbers.end);
  const end = word ? numbers.end + word[0].length : times;
  const alone = times >= 0 && match(COLON_END, text, end) !== null;
  if ((!word && !alone) || unit !== null) return null;
  if (numbers.values.length > 1) {
    return {
      at: numbers.at[0]!,
      message: 'a list of rounds: write one number, because every lane swims the same rounds',
      opens: true,
    };
  }
  const count = wholeCount(digits, numbers.at[0]!, 1);
  if (typeof count !== 'number') return { ...count, opens: true };
  if (word && end < text.length) {
    const message = `${shorten(text.slice(end))} after the rounds: put the sets on the lines below, indented deeper`;
    return { at: end, message, opens: true };
  }
  return { kind: 'rounds', times: count, timesEnd: numbers.end };
}
