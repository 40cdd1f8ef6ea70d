/*
 * Reads a set: counts, distances or a ladder, and `3 x 4 x 50`, which is rounds of a set.
 */

import type { LengthUnit } from '../../units.ts';
import { readClauses, type Clauses } from './clauses.ts';
import { isFlaw, type Flaw } from '../values/flaw.ts';
import { restAsSwim } from './lost-meaning.ts';
import { match, shorten } from '../values/time.ts';
import {
  distanceAt,
  distanceFlaw,
  listAt,
  numberAt,
  type Listed,
  type WrittenDistance,
  type WrittenNumber,
} from '../values/values.ts';

export interface WrittenSet {
  readonly kind: 'set';
  /** Of `3 x 4 x 50`: 3, over the set at index `at`; null for a set alone. */
  readonly rounds: number | null;
  readonly at: number;
  /** null for a ladder, or if the count is left out and so is 1. */
  readonly counts: Listed<number> | null;
  readonly distances: Listed<WrittenDistance>;
  readonly ladder: boolean;
  readonly clauses: Clauses;
}

export interface Pool {
  readonly length: number;
  readonly unit: LengthUnit;
}

const MOST_COUNT = 500;
const MOST_RUNGS = 20;

/** The times sign. An x with a space before it and a letter after it belongs to a word (`100 xtra`). */
const TIMES = /x|\s*[×*]|\s+x(?!\p{L})/iuy;
const RUNG = /\s*[-\u2010-\u2015\u2212]\s*(?=\d)/y;
/** A dash with neither a distance nor words after it. */
const STRAY_DASH = /\s*[-\u2010-\u2015\u2212]\s*(?:[-\u2010-\u2015\u2212@]|$)/y;

/** A set from its first numbers, which are read already. */
export function readSet(text: string, first: Listed<WrittenNumber>, pool: Pool): WrittenSet | Flaw {
  const from = first.at[0]!;
  const times = match(TIMES, text, first.end);
  if (!times) return finishSet(text, { rounds: null, at: from, counts: null }, from, pool);
  const second = afterTimes(text, first.end + times[0].length);
  if (isFlaw(second)) return second;
  const again = match(TIMES, text, second.numbers.end);
  if (!again) {
    const counts = countsOf(first, 0);
    return isFlaw(counts) ? counts : finishSet(text, { rounds: null, at: from, counts }, second.at, pool);
  }
  if (first.values.length > 1)
    return { at: from, message: 'a list of rounds: write one number, because every lane swims the same rounds' };
  const rounds = wholeCount(first.values[0]!.digits, from, 1);
  if (typeof rounds !== 'number') return rounds;
  const counts = countsOf(second.numbers, 0);
  if (isFlaw(counts)) return counts;
  const third = afterTimes(text, second.numbers.end + again[0].length);
  if (isFlaw(third)) return third;
  return finishSet(text, { rounds, at: second.at, counts }, third.at, pool);
}

/** Reads the numbers after an `x`. */
function afterTimes(
  text: string,
  behind: number,
): { readonly numbers: Listed<WrittenNumber>; readonly at: number } | Flaw {
  const at = behind + /^\s*/.exec(text.slice(behind))![0].length;
  if (text.charAt(at) === '(') {
    const message = 'a bracket after x: write 3 rounds on a line of its own, and the sets below it, indented deeper';
    return { at, message, opens: true };
  }
  if (!/\d/.test(text.charAt(at))) {
    return { at, message: 'a distance is missing after x: write count x distance, as in 4 x 50', opens: true };
  }
  const numbers = listAt(text, at, numberAt);
  return isFlaw(numbers) ? numbers : { numbers, at };
}

function countsOf(numbers: Listed<WrittenNumber>, least: number): Listed<number> | Flaw {
  const values: number[] = [];
  for (const [index, { digits, unit }] of numbers.values.entries()) {
    const at = numbers.at[index]!;
    if (unit !== null) return { at, message: `a count in ${unit}: write the count before x and the distance after it` };
    const count = wholeCount(digits, at, least);
    if (typeof count !== 'number') return count;
    values.push(count);
  }
  if (values.every((count) => count === 0)) {
    return { at: numbers.at[0]!, message: 'a count of 0 in every lane: at least one lane must swim the set' };
  }
  return { values, at: numbers.at, end: numbers.end };
}

/** A count from its digits; it must be a whole number from `least` to 500. */
export function wholeCount(digits: string, at: number, least: number): number | Flaw {
  const count = Number(digits);
  if (digits.includes('.')) return { at, message: `${shorten(digits)} is not a count: write a whole number` };
  if (count < least || count > MOST_COUNT) {
    return { at, message: `a count of ${shorten(digits)}: write one from ${least} to ${MOST_COUNT}` };
  }
  return count;
}

/** Reads the distances from an index on, and what follows them. */
function finishSet(
  text: string,
  begun: Pick<WrittenSet, 'rounds' | 'at' | 'counts'>,
  at: number,
  pool: Pool,
): WrittenSet | Flaw {
  const list = listAt(text, at, distanceAt);
  if (isFlaw(list)) return list;
  const ladder = match(RUNG, text, list.end) !== null;
  const distances = ladder ? readLadder(text, list, begun.counts !== null) : list;
  if (isFlaw(distances)) return distances;
  const flaw = distanceFlaw(distances, pool);
  // A small number alone may be a count of rounds, with the word rounds misspelt.
  if (flaw) return begun.counts === null && !ladder ? { ...flaw, opens: true } : flaw;
  const clauses = readClauses(text, distances.end);
  const isBare = begun.counts === null && /\d$/.test(text.slice(at, distances.end)) && !ladder;
  const rest =
    isBare && !isFlaw(clauses) && clauses.timing.kind === 'untimed' ? restAsSwim(text, at, distances.end) : null;
  if (rest) return rest;
  if (!isFlaw(clauses) && clauses.halves && ladder) {
    return { at, message: 'odds and evens in a ladder: write its rungs as lines of their own' };
  }
  return isFlaw(clauses) ? clauses : { kind: 'set', ...begun, distances, ladder, clauses };
}

function readLadder(text: string, first: Listed<WrittenDistance>, counted: boolean): Listed<WrittenDistance> | Flaw {
  const start = first.at[0]!;
  if (counted)
    return {
      at: start,
      message: 'a count before a ladder: write a rounds line above the ladder, or a count x one distance',
    };
  const values = [...first.values];
  const at = [...first.at];
  let end = first.end;
  for (let dash = match(RUNG, text, end); dash; dash = match(RUNG, text, end)) {
    const rung = listAt(text, end + dash[0].length, distanceAt);
    if (isFlaw(rung)) return rung;
    values.push(...rung.values);
    at.push(...rung.at);
    end = rung.end;
  }
  if (text.slice(start, end).includes('/')) {
    return {
      at: start,
      message: 'a list of distances in a ladder: write one distance, because every lane swims the same ladder',
    };
  }
  if (match(STRAY_DASH, text, end)) return { at: end, message: 'a distance is missing after - in the ladder' };
  if (values.length > MOST_RUNGS) {
    return { at: at[MOST_RUNGS]!, message: `a ladder of ${values.length} reps: write 2 to ${MOST_RUNGS}` };
  }
  return { values, at, end };
}

/** The index after an `x` (or `×`, `*`) at an index; −1 if there is none. */
export function behindTimes(text: string, at: number): number {
  const times = match(TIMES, text, at);
  return times ? at + times[0].length : -1;
}

/** Whether the next rung of a ladder, a dash and a number, is at an index. */
export function hasRung(text: string, at: number): boolean {
  return match(RUNG, text, at) !== null;
}
