/*
 * Times in the ways that the notation allows: with a colon, with primes, as bare numbers with or
 * without a unit's word; and what is written with them in a line.
 */

import type { Random } from '../invent/random.ts';
import type { HoldWord, IntervalWord } from '../scenario.ts';

/**
 * Where a time stands. `sum`: behind base or css, with a colon; `before words`: a bare number may not
 * stand there; `first`: first on a line, where a bare number is a distance but whole minutes can be
 * told; `value`: as it likes, a bare number from `atLeast` on.
 */
export type TimePlace = 'sum' | 'before words' | 'first' | 'value';

/** A time in one of its forms. */
export function writeTime(ms: number, random: Random, place: TimePlace, atLeast = 1000): string {
  const minutes = place !== 'sum' && place !== 'before words' && ms > 0 && ms % 60_000 === 0 && ms <= 99 * 60_000;
  if (minutes && random.chance(place === 'first' ? 0.4 : 0.2))
    return `${ms / 60_000} ${random.pick(['min', 'min', 'mins', 'minute', 'minutes'])}`;
  if (place === 'value' && ms >= atLeast && ms <= 99_000 && random.chance(0.4))
    return decimal(ms, 1000) + writeSecondsUnit(random);
  if (place !== 'sum' && ms > 0 && ms % 1000 === 0 && ms < 3_600_000 && random.chance(0.15))
    return withPrimes(ms, random);
  return withColon(ms, random);
}

function writeSecondsUnit(random: Random): string {
  return random.pick(['', '', '', '', ' s', 's', ' sec', 'sec', ' secs', ' seconds', ' second']);
}

function withPrimes(ms: number, random: Random): string {
  const [minute, second] = random.pick([
    ["'", '"'],
    ["'", '"'],
    ['\u2019', '\u201d'],
    ["'", "''"],
  ] as const);
  const seconds = ms / 1000;
  if (seconds < 60 && seconds >= 10 && random.chance(0.7)) return seconds + second;
  const minutes = Math.floor(seconds / 60);
  if (seconds % 60 === 0) return minutes + minute;
  return minutes + minute + two(seconds % 60) + (random.chance(0.5) ? second : '');
}

function withColon(ms: number, random: Random): string {
  const tenths = ms % 1000 === 0 ? '' : `.${(ms % 1000) / 100}`;
  const seconds = Math.floor(ms / 1000);
  if (seconds < 60 && random.chance(0.2)) return `:${two(seconds)}${tenths}`;
  const minutes = Math.floor(seconds / 60);
  if (minutes >= 60) return `${Math.floor(minutes / 60)}:${two(minutes % 60)}:${two(seconds % 60)}${tenths}`;
  return `${random.chance(0.2) ? two(minutes) : minutes}:${two(seconds % 60)}${tenths}`;
}

export function two(value: number): string {
  return String(value).padStart(2, '0');
}

/** Tenths of seconds or of the unit, without a needless `.0`. */
export function decimal(value: number, one: number): string {
  return String(value / one);
}

export function writeInterval(word: IntervalWord, random: Random, place: TimePlace): string {
  if (word.kind === 'time') return writeTime(word.ms, random, place, 10_000);
  const name = random.pick([word.kind, word.kind, word.kind === 'base' ? 'Base' : 'CSS']);
  return word.plus === 0 ? name : name + writeSigned(word.plus, random);
}

export function writeHold(word: HoldWord, random: Random, place: TimePlace): string {
  if (word.kind === 'time') return writeTime(word.ms, random, place);
  return word.plus === 0 ? 'css' : `css${writeSigned(word.plus, random)}`;
}

/** `drop` or `add`. */
export function writeStep(step: number, random: Random): string {
  return `${step < 0 ? 'drop' : 'add'} ${writeTime(Math.abs(step), random, 'value')}`;
}

function writeSigned(ms: number, random: Random): string {
  const sign = ms < 0 ? random.pick(['-', '-', '\u2212', '\u2013']) : '+';
  // A bare number of seconds is at least 1.
  const asTime = Math.abs(ms) < 1000 || random.chance(0.2);
  const value = asTime ? writeTime(Math.abs(ms), random, 'sum') : decimal(Math.abs(ms), 1000);
  return random.chance(0.15) ? ` ${sign} ${value}` : sign + value;
}
