/*
 * Reads what follows the distance on a line: interval or rest, drop or add, target, and the words between them. It
 * goes from left to right, a word at a time.
 */

import type { Millis } from '../../units.ts';
import type { Hold, Interval } from '../session.ts';
import { isFlaw, type Flaw } from '../values/flaw.ts';
import { foldSpaces } from '../text/lines.ts';
import { lostInWords } from './lost-meaning.ts';
import { match, shorten, startsTime, timeAt, tokenAt } from '../values/time.ts';
import {
  holdAt,
  intervalAt,
  listAt,
  repListAt,
  restAt,
  startsHold,
  startsInterval,
  type Listed,
  type RepListed,
} from '../values/values.ts';

export interface Clauses {
  readonly timing: WrittenTiming;
  readonly hold: RepListed<Hold> | null;
  /** Before and after the interval, joined by one space, in the coach's spelling. */
  readonly words: string;
  /** The index of the first interval, rest or target; null if the line has only words. */
  readonly at: number | null;
  /** Of `odds … evens …`: how the first rep and the second are swum, with the words of both; null where all reps are alike. */
  readonly halves: readonly [Half, Half] | null;
  /** Where its clauses stand, in no order; all else is words. */
  readonly spans: readonly ClauseSpan[];
}

/** An interval with its drop or add, a rest, a target, or the keyword of a half, each with its keyword. */
export interface ClauseSpan {
  readonly kind: 'interval' | 'rest' | 'hold' | 'half';
  readonly from: number;
  readonly to: number;
}

export interface Half {
  readonly timing: TimedBy;
  readonly hold: RepListed<Hold> | null;
  readonly words: string;
}

/** `lists`: one for all reps, or one a rep. */
export type WrittenTiming =
  | { readonly kind: 'interval'; readonly lists: readonly Listed<Interval>[]; readonly step: Millis }
  | { readonly kind: 'rest'; readonly lists: readonly [Listed<Millis>] }
  | { readonly kind: 'untimed' };

/** An interval or a rest. */
export type TimedBy = Exclude<WrittenTiming, { kind: 'untimed' }>;

type Found =
  | { readonly kind: 'timing'; readonly timing: WrittenTiming; readonly end: number }
  | { readonly kind: 'hold'; readonly hold: RepListed<Hold>; readonly end: number }
  /** `on 130`: words where the line has an interval elsewhere (`on 200 pace @ 1:00`), else its flaw. */
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

/** A comma and a number after a rest: one rest a rep is not written so. */
const COMMA_NUMBER = /\s*,\s*(?=:?\d)/y;
const HALF = /(?<![\p{L}\p{N}'’-])(odds|evens)(?![\p{L}\p{N}'’-])/giu;

const NOTHING: Clauses = { timing: { kind: 'untimed' }, hold: null, words: '', at: null, halves: null, spans: [] };

/** Reads the rest of a line of a part, from an index on. */
export function readClauses(text: string, from: number): Clauses | Flaw {
  if (from === text.length) return NOTHING;
  const halves = halvesIn(text, from);
  const split = halves && readHalves(text, from, halves);
  const read = split ?? readAll(text, from, true);
  if (isFlaw(read)) return read;
  const { timing, hold } = read;
  if (timing.kind === 'untimed' && hold && hold.lists.length > 1) {
    return {
      at: hold.lists[1]!.at[0]!,
      message: 'a target for each rep of an untimed set: it is one leave, so write one hold',
    };
  }
  return read;
}

interface HalfAt {
  readonly word: string;
  readonly from: number;
  readonly end: number;
}

/** Where `odds` and `evens` stand, in the order of the text; null where one of them is missing. */
function halvesIn(text: string, from: number): readonly [HalfAt, HalfAt] | null {
  HALF.lastIndex = from;
  let first: HalfAt | null = null;
  for (let found = HALF.exec(text); found; found = HALF.exec(text)) {
    const word = found[1]!.toLowerCase();
    const half = { word, from: found.index, end: found.index + word.length };
    if (first === null) first = half;
    else if (first.word !== word) return [first, half];
  }
  return null;
}

/** A line with an interval or rest for odd reps and one for even ones; null where `odds` and `evens` are but words. */
function readHalves(text: string, from: number, [one, two]: readonly [HalfAt, HalfAt]): Clauses | Flaw | null {
  const first = readAll(text.slice(0, two.from), one.end, false);
  if (isFlaw(first)) return isFlaw(readAll(text, from, true)) ? first : null;
  if (first.timing.kind === 'untimed') return null;
  const line = readAll(text.slice(0, one.from), from, false);
  if (isFlaw(line)) return line;
  if (line.timing.kind !== 'untimed') {
    return { at: line.at!, message: `a third interval or rest: beside ${one.word} and ${two.word} each has its own` };
  }
  const second = readAll(text, two.end, false);
  if (isFlaw(second)) return second;
  if (second.timing.kind === 'untimed') {
    return {
      at: two.from,
      message: `an interval or rest is missing after ${two.word}: ${one.word} have their own, so write one`,
    };
  }
  const flaw = halfFlaw(line) ?? halfFlaw(first) ?? halfFlaw(second);
  if (flaw) return flaw;
  const halfOf = ({ timing, hold, words }: Clauses): Half | Flaw => {
    if (hold && line.hold) return { at: hold.lists[0]!.at[0]!, message: 'a second target: a rep has one hold' };
    return { timing: timing as TimedBy, hold: hold ?? line.hold, words: joined(' ', line.words, words) };
  };
  const [a, b] = [halfOf(first), halfOf(second)];
  if (isFlaw(a)) return a;
  if (isFlaw(b)) return b;
  const words = joined(', ', line.words, joined(' ', one.word, first.words), joined(' ', two.word, second.words));
  const keywords = [one, two].map(({ from: at, end }) => ({ kind: 'half' as const, from: at, to: end }));
  const spans = [...keywords, ...line.spans, ...first.spans, ...second.spans];
  return { ...a, words, at: line.at ?? first.at, halves: one.word === 'odds' ? [a, b] : [b, a], spans };
}

function halfFlaw({ timing, hold }: Clauses): Flaw | null {
  if (timing.kind === 'interval' && timing.step !== 0) {
    return {
      at: timing.lists[0]!.at[0]!,
      message: 'drop or add beside odds and evens: write the intervals one a rep instead',
    };
  }
  const list = timing.kind === 'interval' && timing.lists.length > 1 ? timing.lists : hold?.lists;
  if (!list || list.length < 2) return null;
  return { at: list[1]!.at[0]!, message: 'one value a rep beside odds and evens: write one for each of the two' };
}

function joined(by: string, ...words: readonly string[]): string {
  return words.filter((each) => each !== '').join(by);
}

/** A line, or a part of one, without a look at `odds` and `evens`; `whole`: whether it has all of the line's clauses. */
function readAll(text: string, from: number, whole: boolean): Clauses | Flaw {
  let timing: WrittenTiming = { kind: 'untimed' };
  let hold: RepListed<Hold> | null = null;
  let first: number | null = null;
  let doubt: Flaw | null = null;
  const spans: ClauseSpan[] = [];
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
    spans.push({ kind: spanKind(found), from: at, to: found.end });
    segments.push([segmentStart, at]);
    segmentStart = at = found.end;
  }
  if (doubt && timing.kind === 'untimed') return doubt;
  segments.push([segmentStart, text.length]);
  const words = joinWords(text, segments, whole && timing.kind === 'untimed');
  return typeof words === 'string' ? { timing, hold, words, at: first, halves: null, spans } : words;
}

function spanKind(found: Exclude<Found, { kind: 'doubt' }>): ClauseSpan['kind'] {
  return found.kind === 'timing' && found.timing.kind === 'rest' ? 'rest' : found.kind === 'hold' ? 'hold' : 'interval';
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
    const next = shorten(text.slice(value).split(/\s/)[0]!);
    const message = `an interval is missing after @${next === '' ? '' : `, before ${next}`}: write @ 1:30 or @ base`;
    return { at, message };
  }
  const list = repListAt(text, value, intervalAt);
  if (isFlaw(list)) return list;
  const { lists } = list;
  const step = match(STEP, text, list.end);
  if (!step) return { kind: 'timing', timing: { kind: 'interval', lists, step: 0 }, end: list.end };
  const word = step[1]!.toLowerCase();
  const stepAt = list.end + step[0].length;
  if (lists.length > 1) {
    return {
      at: stepAt - word.length,
      message: `${word} after one interval a rep: write the intervals, or one and ${word}`,
    };
  }
  const time = timeAt(text, skipSpaces(text, stepAt));
  if (isFlaw(time)) {
    if (startsTime(text, time.at)) return time;
    return { at: stepAt - word.length, message: `a value is missing after ${word}: write ${word} 5` };
  }
  const flaw = behindValue(text, time.end, word);
  if (flaw) return flaw;
  const signed = word === 'drop' ? -time.ms || 0 : time.ms;
  return { kind: 'timing', timing: { kind: 'interval', lists, step: signed }, end: time.end };
}

function holdClause(text: string, value: number): Found | Flaw {
  const hold = repListAt(text, value, holdAt);
  if (isFlaw(hold)) return hold;
  return behindValue(text, hold.end, 'hold') ?? { kind: 'hold', hold, end: hold.end };
}

function restClause(text: string, value: number): Found | Flaw {
  const list = listAt(text, value, restAt);
  if (isFlaw(list)) return list;
  const comma = match(COMMA_NUMBER, text, list.end);
  if (comma) {
    const message =
      'a comma and a number after a rest: a line has one rest, as in rest 15, or one a lane, as in rest 15/20';
    return { at: list.end + comma[0].length, message };
  }
  return { kind: 'timing', timing: { kind: 'rest', lists: [list] }, end: list.end };
}

/** `15 s rest` with no value after rest; else the index to go on from. */
function restBefore(text: string, at: number): Found | number {
  const list = listAt(text, at, restAt);
  // Goes on from where the list broke off, not from its second value, so that a line of slashes is read once.
  if (isFlaw(list)) return Math.max(list.at, at + tokenAt(text, at).length);
  const rest = match(REST_BEHIND, text, list.end);
  if (!rest || startsTime(text, skipSpaces(text, list.end + rest[0].length))) return list.end;
  return { kind: 'timing', timing: { kind: 'rest', lists: [list] }, end: list.end + rest[0].length };
}

/** The flaw of a word right after a value, which might belong to it; null if there is no such word. */
function behindValue(text: string, end: number, word: string): Flaw | null {
  if (match(VALUE_ENDS, text, end)) return null;
  const at = skipSpaces(text, end);
  if (startsTime(text, at) && typeof restBefore(text, at) !== 'number') return null;
  const next = shorten(text.slice(at).split(/\s/)[0]!);
  return { at, message: `${next} right after the value of ${word}: put a comma between them` };
}

function joinWords(
  text: string,
  segments: readonly (readonly [from: number, to: number])[],
  untimed: boolean,
): string | Flaw {
  const pieces: string[] = [];
  for (const [from, to] of segments) {
    if (from === to) continue;
    const lost = lostInWords(text.slice(from, to), untimed);
    if (lost) return { ...lost, at: from + lost.at };
    const words = trimWords(text.slice(from, to));
    if (words !== '') pieces.push(words);
  }
  const words = pieces.join(' ');
  if (pieces.length < 2) return words;
  // What only the joining brings together (`no rest @ 1:00 15 fast`) would read as something else on the wall.
  const again = readAll(`${words} @ 1:00`, 0, true);
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
