/*
 * Reads what follows the distance on a line: interval or rest, drop or add, target, and the words between them. It
 * goes from left to right, a word at a time.
 */

import type { Millis } from '../units.ts';
import type { Hold, Interval } from './session.ts';
import { isFlaw, type Flaw } from './flaw.ts';
import { foldSpaces } from './lines.ts';
import { lostInWords } from './lost-meaning.ts';
import { match, shorten, startsTime, timeAt, tokenAt } from './time.ts';
import { holdAt, intervalAt, listAt, restAt, startsHold, startsInterval, type Listed } from './values.ts';

export interface Clauses {
  readonly timing: WrittenTiming;
  readonly hold: Listed<Hold> | null;
  /** The words before and after the interval, joined by one space, in the coach's spelling. */
  readonly words: string;
  /** The index of the first interval, rest or target; null if the line has only words. */
  readonly at: number | null;
}

export type WrittenTiming =
  | { readonly kind: 'interval'; readonly list: Listed<Interval>; readonly step: Millis }
  | { readonly kind: 'rest'; readonly list: Listed<Millis> }
  | { readonly kind: 'untimed'; readonly list?: undefined };

/** An interval or a rest. */
export type TimedBy = Exclude<WrittenTiming, { kind: 'untimed' }>;

type Found =
  | { readonly kind: 'timing'; readonly timing: WrittenTiming; readonly end: number }
  | { readonly kind: 'hold'; readonly hold: Listed<Hold>; readonly end: number }
  /** `on 130`: only words if the line has an interval elsewhere (`on 200 pace @ 1:00`); if it has none, a flaw. */
  | { readonly kind: 'doubt'; readonly flaw: Flaw; readonly end: number };

/** A word or a sign, and the space after it. */
const WORD = /(?:[\p{L}\p{N}][\p{L}\p{N}\p{M}'’-]*|[^])\s*/uy;
/** What a clause can begin with; all other words are skipped at once. */
const BEGINS_CLAUSE = /[@:\dorhda]/iy;
const KEYWORD = /(on|rest|ri|hold|drop|add)(?![\p{L}\p{N}'’-])/iuy;
const ON = /on(?:\s+the)?\s*/iy;
const REST_BEHIND = /\s*(?:rest|ri)(?![\p{L}\p{N}'’-])/iuy;
/** `rest15`: no space between the keyword and its value. */
const GLUED = /(rest|ri|hold|drop|add)(:?\d)/iy;
const STEP = /\s*,?\s*(drop|add)(?![\p{L}\p{N}'’-])/iuy;
const SPACES = /\s*/y;
/** What may follow the value of drop, add or hold. */
const VALUE_ENDS = /\s*(?:$|[,@]|(?:on|rest|ri|hold|drop|add)(?![\p{L}\p{N}'’-]))/iuy;

const NOTHING: Clauses = { timing: { kind: 'untimed' }, hold: null, words: '', at: null };

/** Reads the rest of a line of a part, from an index on. */
export function readClauses(text: string, from: number): Clauses | Flaw {
  if (from === text.length) return NOTHING;
  let timing: WrittenTiming = { kind: 'untimed' };
  let hold: Listed<Hold> | null = null;
  let first: number | null = null;
  let doubt: Flaw | null = null;
  const segments: (readonly [from: number, to: number])[] = [];
  let segmentStart = from;
  let at = from;
  while (at < text.length) {
    const found = clauseAt(text, at, timing.kind !== 'untimed');
    if (typeof found === 'number') {
      at = found;
      continue;
    }
    if (isFlaw(found)) return found;
    if (found.kind === 'doubt') {
      doubt = doubt ?? found.flaw;
      at = found.end;
      continue;
    }
    if (found.kind === 'hold') {
      if (hold) return { at, message: 'a second target: write one hold on a line' };
      hold = found.hold;
    } else {
      if (timing.kind !== 'untimed')
        return { at, message: 'a second interval or rest: write only one of them on a line' };
      timing = found.timing;
    }
    first = first ?? at;
    segments.push([segmentStart, at]);
    segmentStart = at = found.end;
  }
  if (doubt && timing.kind === 'untimed') return doubt;
  segments.push([segmentStart, text.length]);
  const words = joinWords(text, segments);
  return typeof words === 'string' ? { timing, hold, words, at: first } : words;
}

/** Folds white space and drops commas and spaces at the ends. */
export function trimWords(words: string): string {
  const folded = foldSpaces(words);
  let from = 0;
  let to = folded.length;
  while (from < to && ' ,'.includes(folded.charAt(from))) from += 1;
  while (from < to && ' ,'.includes(folded.charAt(to - 1))) to -= 1;
  return folded.slice(from, to);
}

/** The clause that begins at an index, or its flaw; if no clause begins there, the index to go on from. */
function clauseAt(text: string, at: number, timed: boolean): Found | Flaw | number {
  if (!match(BEGINS_CLAUSE, text, at)) return at + match(WORD, text, at)![0].length;
  if (text[at] === '@') return intervalClause(text, at, skipSpaces(text, at + 1));
  if (startsTime(text, at)) return restBefore(text, at);
  const keyword = match(KEYWORD, text, at)?.[1]!.toLowerCase();
  const behind = at + (keyword?.length ?? 0);
  const value = skipSpaces(text, behind);
  switch (keyword) {
    case undefined: {
      const glued = match(GLUED, text, at);
      if (glued) return { at, message: `a space is missing: write ${glued[1]} ${glued[2]}…` };
      break;
    }
    case 'on': {
      const value = at + match(ON, text, at)![0].length;
      if (!startsInterval(text, value)) return behind;
      const clause = intervalClause(text, at, value);
      return isFlaw(clause) && isNoTime(text, value) ? { kind: 'doubt', flaw: clause, end: behind } : clause;
    }
    case 'hold':
      if (startsHold(text, value)) return holdClause(text, value);
      break;
    case 'rest':
    case 'ri':
      if (startsTime(text, value)) return restClause(text, value);
      break;
    default:
      if (timed || startsTime(text, value)) {
        const message = `${keyword} must follow the interval and have a value after it: write @ 2:00 ${keyword} 5`;
        return { at, message };
      }
  }
  if (keyword !== undefined && (timed || /^:\s*\d/.test(text.slice(behind, behind + 20)))) {
    return {
      at,
      message: `a value is missing after ${keyword}: write ${keyword} ${keyword === 'hold' ? '1:20' : '15'}`,
    };
  }
  return at + match(WORD, text, at)![0].length;
}

function intervalClause(text: string, at: number, value: number): Found | Flaw {
  if (!startsInterval(text, value)) {
    const next = shorten(text.slice(value).split(/\s/)[0] ?? '');
    const message = `an interval is missing after @${next === '' ? '' : `, before ${next}`}: write @ 1:30 or @ base`;
    return { at, message };
  }
  const list = listAt(text, value, intervalAt);
  if (isFlaw(list)) return list;
  const step = match(STEP, text, list.end);
  if (!step) return { kind: 'timing', timing: { kind: 'interval', list, step: 0 }, end: list.end };
  const word = step[1]!.toLowerCase();
  const stepAt = list.end + step[0].length;
  const time = timeAt(text, skipSpaces(text, stepAt));
  if (isFlaw(time)) {
    if (startsTime(text, time.at)) return time;
    return { at: stepAt - word.length, message: `a value is missing after ${word}: write ${word} 5` };
  }
  const flaw = behindValue(text, time.end, word);
  if (flaw) return flaw;
  const signed = word === 'drop' ? -time.ms || 0 : time.ms;
  return { kind: 'timing', timing: { kind: 'interval', list, step: signed }, end: time.end };
}

function holdClause(text: string, value: number): Found | Flaw {
  const hold = listAt(text, value, holdAt);
  if (isFlaw(hold)) return hold;
  return behindValue(text, hold.end, 'hold') ?? { kind: 'hold', hold, end: hold.end };
}

function restClause(text: string, value: number): Found | Flaw {
  const list = listAt(text, value, restAt);
  return isFlaw(list) ? list : { kind: 'timing', timing: { kind: 'rest', list }, end: list.end };
}

/** `15 s rest` with no value after rest; else the index to go on from. */
function restBefore(text: string, at: number): Found | number {
  const list = listAt(text, at, restAt);
  // Goes on from where the list broke off, not from its second value, so that a line of slashes is read once.
  if (isFlaw(list)) return Math.max(list.at, at + tokenAt(text, at).length);
  const rest = match(REST_BEHIND, text, list.end);
  if (!rest || startsTime(text, skipSpaces(text, list.end + rest[0].length))) return list.end;
  return { kind: 'timing', timing: { kind: 'rest', list }, end: list.end + rest[0].length };
}

/** The flaw of a word right after a value, which might belong to it; null if there is no such word. */
function behindValue(text: string, end: number, word: string): Flaw | null {
  if (match(VALUE_ENDS, text, end)) return null;
  const at = skipSpaces(text, end);
  if (startsTime(text, at) && typeof restBefore(text, at) !== 'number') return null;
  const next = shorten(text.slice(at).split(/\s/)[0]!);
  return { at, message: `${next} right after the value of ${word}: put a comma between them` };
}

function joinWords(text: string, segments: readonly (readonly [from: number, to: number])[]): string | Flaw {
  const pieces: string[] = [];
  for (const [from, to] of segments) {
    if (from === to) continue;
    const lost = lostInWords(text.slice(from, to));
    if (lost) return { ...lost, at: from + lost.at };
    const words = trimWords(text.slice(from, to));
    if (words !== '') pieces.push(words);
  }
  const words = pieces.join(' ');
  if (pieces.length < 2) return words;
  // Joined words can mean something else (`no rest @ 1:00 15 fast`), and the wall would show that.
  const again = readClauses(`${words} @ 1:00`, 0);
  if (isFlaw(again) || again.timing.kind !== 'interval' || again.words !== words || again.hold || /\s#\s/.test(words)) {
    const [from, to] = segments[segments.length - 1]!;
    const at = Math.min(skipSpaces(text, from), to - 1);
    return {
      at,
      message: `the words before and after the interval would read as "${shorten(words)}" together: put them on one side of it`,
    };
  }
  return words;
}

/** Whether a number is not a time (1.30, 130): as an interval it may be a slip, or not meant as an interval. */
function isNoTime(text: string, at: number): boolean {
  return /^(?:\d{3,}|\d+\.\d\d)[\d.]*(?!:)/.test(text.slice(at, at + 20));
}

function skipSpaces(text: string, at: number): number {
  return at + match(SPACES, text, at)![0].length;
}
