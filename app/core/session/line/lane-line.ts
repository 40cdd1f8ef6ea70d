/*
 * Reads `lane 1 css 1:20, base 1:30, 5 swimmers`, and completes the lane with the session's gap and grid.
 */

import type { Millis } from '../../units.ts';
import { MINUTE, SECOND } from '../../units.ts';
import { baseFromCss, ASSUMED_BASE } from '../lanes/pace.ts';
import type { Lane } from '../session.ts';
import { isFlaw, type Flaw } from '../values/flaw.ts';
import { foldSpaces } from '../text/lines.ts';
import { shorten, startsTime, timeAt } from '../values/time.ts';
import { nearWord } from './near-word.ts';

export interface WrittenLane {
  readonly number: number;
  readonly base: Millis | null;
  readonly css: Millis | null;
  readonly swimmers: number;
  readonly names: readonly string[];
  /** null if the lane's line has none. */
  readonly gap: Millis | null;
}

/** A lane line as read: its number (null if even that is wrong), and the lane or what is wrong with it. */
export interface ReadLane {
  readonly number: number | null;
  readonly lane: WrittenLane | Flaw;
}

type Draft = { -readonly [Key in 'base' | 'css' | 'gap' | 'swimmers']: number | null } & { names: string[] };

export const HIGHEST_LANE = 20;
const MOST_SWIMMERS = 20;
const MOST_GAP = 60;
export const LEAST_PACE: Millis = 20 * SECOND;
export const MOST_PACE: Millis = 10 * MINUTE;

/** Reads the value of a lane line, from an index on. */
export function readLane(text: string, at: number): ReadLane {
  const found = /^(\d+)(?:\s*:)?(?:$|,\s*|\s+,?\s*)/.exec(text.slice(at));
  const number = found ? Number(found[1]) : NaN;
  if (!found || number > HIGHEST_LANE) {
    const message = `${shorten(text.slice(at).split(/[\s,]/)[0]!)} is not a lane number: write one from 0 to 20`;
    return { number: null, lane: { at, message } };
  }
  const draft: Draft = { base: null, css: null, gap: null, swimmers: null, names: [] };
  const start = at + found[0].length;
  if (start < text.length || found[0].includes(',')) {
    const flaw = readItems(text, start, draft);
    if (flaw) return { number, lane: flaw };
  }
  const { base, css, gap, names } = draft;
  const swimmers = draft.swimmers ?? Math.max(names.length, 1);
  return { number, lane: { number, base, css, swimmers, names, gap } };
}

/** A lane of which nothing is said. */
export function plainLane(number: number): WrittenLane {
  return { number, base: null, css: null, swimmers: 1, names: [], gap: null };
}

/** The complete lane: its gap is the session's if it has none, and a base from css is on the grid. */
export function wholeLane(lane: WrittenLane, sessionGap: Millis, grid: Millis): Lane {
  const { number, css, swimmers, names } = lane;
  const gap = lane.gap ?? sessionGap;
  const common = { number, css, swimmers, names, gap, ownGap: lane.gap !== null };
  if (lane.base !== null) return { ...common, base: lane.base, baseFrom: 'written' };
  if (css !== null) return { ...common, base: baseFromCss(css, grid), baseFrom: 'css' };
  return { ...common, base: ASSUMED_BASE, baseFrom: 'assumed' };
}

function readItems(text: string, start: number, draft: Draft): Flaw | null {
  let at = start;
  for (const piece of text.slice(start).split(',')) {
    const item = piece.trim();
    const itemAt = item === '' ? Math.min(at, text.length - 1) : at + piece.indexOf(item);
    const flaw = readItem(text.slice(0, itemAt + item.length), itemAt, draft);
    if (flaw) return flaw;
    at += piece.length + 1;
  }
  return null;
}

function readItem(text: string, at: number, draft: Draft): Flaw | null {
  const item = text.slice(at);
  const keyed = /^(base|css|gap)(?![\p{L}\p{N}-])\s*/iu.exec(item);
  if (keyed) {
    const key = keyed[1]!.toLowerCase() as 'base' | 'css' | 'gap';
    if (draft[key] !== null) return { at, message: `a second ${key} for the lane: write it only once` };
    const value = at + keyed[0].length;
    const read = key === 'gap' ? readGap(text, value) : readPace(text, value, key);
    if (typeof read !== 'number') return read;
    draft[key] = read;
    return null;
  }
  const swimmers = /^(\d+)\s*swimmers?$/i.exec(item);
  return swimmers ? readSwimmers(swimmers[1]!, at, draft) : readName(item, at, draft);
}

function readPace(text: string, at: number, key: string): Millis | Flaw {
  if (!startsTime(text, at)) {
    return { at: Math.min(at, text.length - 1), message: `a time is missing after ${key}: write ${key} 1:30` };
  }
  const time = timeAt(text, at);
  if (isFlaw(time)) return time;
  if (time.end < text.length) {
    const next = shorten(text.slice(time.end));
    return {
      at: text.length - text.slice(time.end).trim().length,
      message: `${next} right after ${key}: put a comma between them`,
    };
  }
  if (time.ms < LEAST_PACE || time.ms > MOST_PACE) {
    return { at, message: `${shorten(text.slice(at))} per 100 after ${key}: write a time from 0:20 to 10:00` };
  }
  return time.ms;
}

function readGap(text: string, at: number): Millis | Flaw {
  const value = text.slice(at);
  const seconds = /^\d{1,6}$/.test(value) ? Number(value) : 0;
  if (seconds >= 1 && seconds <= MOST_GAP) return seconds * SECOND;
  const message = `${shorten(value) || 'nothing'} after gap: write a whole number from 1 to 60, in seconds`;
  return { at: Math.min(at, text.length - 1), message };
}

function readSwimmers(digits: string, at: number, draft: Draft): Flaw | null {
  const swimmers = Number(digits);
  if (draft.swimmers !== null) return { at, message: 'a second number of swimmers for the lane: write it only once' };
  if (draft.names.length > 0) return { at, message: 'names and a number of swimmers together: write one or the other' };
  if (swimmers < 1 || swimmers > MOST_SWIMMERS) {
    return { at, message: `${shorten(digits)} swimmers: a lane has 1 to ${MOST_SWIMMERS}` };
  }
  draft.swimmers = swimmers;
  return null;
}

function readName(item: string, at: number, draft: Draft): Flaw | null {
  if (item === '')
    return { at, message: 'there is nothing between two commas: write base, css, gap, swimmers or a name' };
  if (/\p{N}/u.test(item)) {
    const [counted, word] = /^\d+\s*(?=(\p{L}+)$)/u.exec(item) ?? [];
    return {
      // In `5 swimers` the number is right.
      at: counted !== undefined && nearWord(word!) === 'swimmers' ? at + counted.length : at,
      message: `${shorten(item)} is neither a name nor a lane setting: write base 1:30, css 1:20, 5 swimmers or gap 10`,
    };
  }
  if (/(?:^|\s)#$/.test(item)) return { at, message: 'a name that ends in #: leave out the #, which begins a comment' };
  if (draft.swimmers !== null)
    return { at, message: 'names and a number of swimmers together: write one or the other' };
  if (draft.names.length === MOST_SWIMMERS)
    return { at, message: `more than ${MOST_SWIMMERS} names: a lane has 1 to ${MOST_SWIMMERS} swimmers` };
  draft.names.push(foldSpaces(item));
  return null;
}
