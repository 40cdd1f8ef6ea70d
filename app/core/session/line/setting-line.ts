/*
 * Tells which lines are settings, and reads pool, start, finish, gap, between and grid. (`lane` has a file of its
 * own.)
 */

import type { Hundredths, LengthUnit, Millis } from '../../units.ts';
import { MINUTE, SECOND } from '../../units.ts';
import { isFlaw, type Flaw } from '../values/flaw.ts';
import { lanePrefixOf } from './lane-prefix.ts';
import { shorten, startsTime, timeAt } from '../values/time.ts';

export type SettingWord = 'pool' | 'start' | 'finish' | 'gap' | 'between' | 'grid' | 'lane' | 'lanes';

export interface SettingLine {
  readonly word: SettingWord;
  /** The index at which its value begins. */
  readonly value: number;
  /** What is wrong with how it is written, if anything. */
  readonly flaw: Flaw | null;
}

export interface PoolSetting {
  readonly length: Hundredths;
  readonly unit: LengthUnit;
}

const OPENING = /^(pool|start|finish|gap|between|grid|lanes?)(:?)(\s*)/i;
const VALUE = /^(?::?\d|(?:auto|on)(?![\p{L}\p{N}-]))/iu;
const GLUED_VALUE = /^[^\p{L}\p{N}\s]*\d/u;

const LONGEST_BETWEEN: Millis = 30 * MINUTE;

/** The setting that a line is, or is meant as; null for any other line. */
export function settingOf(text: string): SettingLine | null {
  const opening = OPENING.exec(text);
  if (!opening || lanePrefixOf(text)) return null;
  const [whole, written, colon, space] = opening;
  const word = written!.toLowerCase() as SettingWord;
  const rest = text.slice(whole.length);
  const isGlued = space === '' && (colon === '' ? GLUED_VALUE.test(rest) : VALUE.test(rest) || GLUED_VALUE.test(rest));
  if (word === 'lanes') {
    if (!isGlued && !/^:?\d/.test(rest)) return null;
    const message =
      'lanes and a number: write lanes 1-3: and a set after it, or for their paces a line a lane, as in lane 1 css 1:20';
    return { word, value: whole.length, flaw: { at: 0, message } };
  }
  if (isGlued) {
    const message = `${shorten(text.split(/\s/)[0]!)} needs a space: write ${word}, a space and then its value`;
    return { word, value: whole.length, flaw: { at: 0, message } };
  }
  return VALUE.test(rest) && space !== '' ? { word, value: whole.length, flaw: null } : null;
}

/** The first word where it is a setting's, whatever follows; else null. */
export function settingWordOf(text: string): SettingWord | null {
  const found = /^(?:pool|start|finish|gap|between|grid|lanes?)(?![\p{L}\p{N}-])/iu.exec(text);
  return found ? (found[0].toLowerCase() as SettingWord) : null;
}

/** `25 m`, `33.33 m`, `25yd`. */
export function readPool(text: string, at: number): PoolSetting | Flaw {
  const found = /^(\d+)(?:\.(\d+))?\s*(m|yd)$/i.exec(text.slice(at));
  if (!found)
    return { at, message: `${valueIn(text, at)} is not a pool: write its length and m or yd, as in pool 25 m` };
  const [, whole, decimals = '', unit] = found;
  const length = Number(whole) * 100 + Number(decimals.padEnd(2, '0'));
  if (decimals.length > 2 || length < 100 || length > 10_000) {
    return {
      at,
      message: `a pool cannot be ${valueIn(text, at)} long: write a length from 1 to 100, with at most two decimals`,
    };
  }
  return { length, unit: unit!.toLowerCase() === 'm' ? 'm' : 'yd' };
}

/** A whole number of seconds among those allowed. */
export function readSeconds(
  text: string,
  at: number,
  name: string,
  allowed: { readonly from: number; readonly to: number } | readonly number[],
): { readonly ms: Millis } | Flaw {
  const value = text.slice(at);
  const seconds = /^\d{1,6}$/.test(value) ? Number(value) : NaN;
  const fits = 'from' in allowed ? seconds >= allowed.from && seconds <= allowed.to : allowed.includes(seconds);
  if (fits) return { ms: seconds * SECOND };
  const range =
    'from' in allowed ? `a whole number from ${allowed.from} to ${allowed.to}` : `one of ${allowed.join(', ')}`;
  return { at, message: `${valueIn(text, at)} after ${name}: write ${range}, in seconds` };
}

/** `1:00`, or `auto 0:45`. */
export function readBetween(text: string, at: number): { readonly time: Millis; readonly auto: boolean } | Flaw {
  const auto = /^auto(?![\p{L}\p{N}-])\s*/iu.exec(text.slice(at));
  const value = at + (auto?.[0].length ?? 0);
  if (!startsTime(text, value)) {
    return { at: value, message: 'a time is missing after between: write between 1:00 or between auto 0:45' };
  }
  const time = timeAt(text, value);
  if (isFlaw(time)) return time;
  if (time.end < text.length) {
    return {
      at: time.end + 1,
      message: `${valueIn(text, time.end)} after the time between parts: write nothing else on this line`,
    };
  }
  if (time.ms > LONGEST_BETWEEN) {
    return { at: value, message: `${valueIn(text, value)} between parts: write a time from 0:00 to 30:00` };
  }
  return { time: time.ms, auto: auto !== null };
}

export function valueIn(text: string, at: number): string {
  return shorten(text.slice(at)) || 'nothing';
}
