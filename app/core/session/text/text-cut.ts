/*
 * Makes a cut in the text, before the run: lowers the counts of one line, or shortens its ladder or its time. Everything
 * else stays as the coach wrote it, comments and spelling too.
 */

import { isFlaw } from '../values/flaw.ts';
import { lanePrefixOf } from '../line/lane-prefix.ts';
import { lineStart, readLines, type Line } from './lines.ts';
import { readSwimLine } from '../line/part-line.ts';
import type { Pool, WrittenSet } from '../line/set-line.ts';
import { match } from '../values/time.ts';
import type { Millis } from '../../units.ts';
import { reading } from '../../words/time/reading.ts';

/** Characters of a line's text, and what replaces them. */
interface Edit {
  readonly from: number;
  readonly to: number;
  readonly by: string;
}

const DIGITS = /\d+(?:\.\d)?/y;
/** Up to its s: what is left may be one round. */
const ROUNDS = /\d+\s*rounds(?!\p{L})/iuy;

/**
 * The text with `n` fewer reps or rounds on a line (from 1). Every lane that has any must have more than n. Throws if
 * the line is neither a set nor rounds.
 */
export function textWithCut(text: string, pool: Pool, line: number, n: number): string {
  return edited(text, line, (found) => editsOf(found, pool, n));
}

/** The text with another time on a line (from 1) of a timed swim or a timed block. Throws if the line is neither. */
export function textWithTime(text: string, pool: Pool, line: number, time: Millis): string {
  return edited(text, line, (found) => {
    const from = lanePrefixOf(found.text)?.end ?? 0;
    const written = readSwimLine(found.text, pool, from);
    if (isFlaw(written) || (written.kind !== 'timed-swim' && written.kind !== 'block')) {
      throw new Error(`line ${line} is not swum by time`);
    }
    return [{ from, to: written.timeEnd, by: reading(time) }];
  });
}

function edited(text: string, line: number, editsOn: (line: Line) => readonly Edit[]): string {
  const found = readLines(text).lines.find(({ number }) => number === line);
  if (!found) throw new Error(`line ${line} has nothing to cut`);
  const begin = lineStart(text, line) + found.start;
  return editsOn(found).reduceRight(
    (done, { from, to, by }) => done.slice(0, begin + from) + by + done.slice(begin + to),
    text,
  );
}

function editsOf({ text, number }: Line, pool: Pool, n: number): readonly Edit[] {
  // Behind the lanes that it is for.
  const from = lanePrefixOf(text)?.end ?? 0;
  const written = readSwimLine(text, pool, from);
  if (isFlaw(written) || (written.kind !== 'set' && written.kind !== 'rounds')) {
    throw new Error(`line ${number} is neither a set nor rounds`);
  }
  if (written.kind === 'rounds') return roundsGone(text, from, written.times - n);
  if (written.ladder) return [rungsGone(text, written, n), ...valuesGone(text, written, n)];
  // Of `3 x 4 x 50` the 3 is cut.
  const counts = written.rounds === null ? written.counts!.at : [from];
  const fewer = counts
    .map((from) => ({ from, digits: digitsAt(text, from) }))
    .filter(({ digits }) => Number(digits) > 0)
    .map(({ from, digits }) => ({ from, to: from + digits.length, by: `${Number(digits) - n}` }));
  return written.rounds === null ? [...fewer, ...valuesGone(text, written, n)] : fewer;
}

/** A number that may be a time or a word: behind a comma and before words it would be one of those. */
const BARE = /(?:^|[\s,/@])\d+(?:\.\d)?\s*(?:s|secs?|seconds?)?$/iu;

/** Of one interval or target a rep, those of the reps that go: the list must stay as long as the set. */
function valuesGone(text: string, { clauses: { timing, hold } }: WrittenSet, n: number): readonly Edit[] {
  return [timing.kind === 'interval' ? timing.lists : [], hold?.lists ?? []]
    .filter(({ length }) => length > 1)
    .map((lists) => {
      const [from, to] = [lists[lists.length - 1 - n]!.end, lists[lists.length - 1]!.end];
      const isUnclear = BARE.test(text.slice(0, from)) && /^\s+(?!(?:on|hold)\b)[^\s,@/]/iu.test(text.slice(to));
      return { from, to, by: isUnclear ? ',' : '' };
    })
    .sort((a, b) => a.from - b.from);
}

function roundsGone(text: string, from: number, left: number): readonly Edit[] {
  const count = { from, to: digitsEnd(text, from), by: `${left}` };
  const plural = left === 1 ? match(ROUNDS, text, from) : null;
  if (!plural) return [count];
  const end = from + plural[0].length;
  return [count, { from: end - 1, to: end, by: '' }];
}

/** From after the last rung that stays to the last digit of all. A unit after that digit is for every rung and stays. */
function rungsGone(text: string, { distances: { at } }: WrittenSet, n: number): Edit {
  return { from: digitsEnd(text, at[at.length - 1 - n]!), to: digitsEnd(text, at[at.length - 1]!), by: '' };
}

function digitsEnd(text: string, at: number): number {
  return at + digitsAt(text, at).length;
}

function digitsAt(text: string, at: number): string {
  return match(DIGITS, text, at)![0];
}
