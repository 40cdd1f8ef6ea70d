/*
 * Words are free, but some must not hide what the clock would then miss: a time, a count beside an x, or a distance
 * in a heading is probably meant as a set.
 */

import type { Flaw } from '../values/flaw.ts';
import { shorten } from '../values/time.ts';

interface Found {
  readonly index: number;
  readonly [0]: string;
}

const TIME_WITH_COLON = /(?:\d{1,2}:)?\d{0,2}:\d\d(?!\d)/;
/** With a colon, or with primes; `50's` is a word. */
const TIME =
  /(?:\d{1,2}:)?\d{0,2}:\d\d(?!\d)|\d{1,2}(?:\.\d)?(?:["”″]|['’′]{1,2})(?:[0-5]\d(?:\.\d)?(?:["”″]|['’′]{2})?)?(?![\p{L}\p{N}])/u;
/** `1.40`: a time with a point. */
const POINTED = /(?<![\d.:])\d{1,2}\.\d\d(?![\d.])/;
/** `15 sec`; `by 25s` and `of 100s` are plurals. */
const SECONDS = /\d+(?:\.\d)?(?:\s+s|\s*sec(?:s|onds?)?|s)(?![\p{L}\p{N}-])/giu;
const BESIDE_X = /\d\s*(?:[×*]|x(?!\p{L}))|(?:[×*]|(?<!\p{L})x)\s*\d/iu;
const BESIDE_PLUS = /\d\s*\+|\+\s*\d/;
const NUMBER = /\d+(?:\.\d+)?/g;

/**
 * What would be lost in words, or null: a time with a colon or primes, a number with a point and two digits, a number
 * beside `x` or `+`; in the words of an untimed line also a number of seconds.
 */
export function lostInWords(words: string, untimed: boolean): Flaw | null {
  const time = TIME.exec(words);
  const pointed = POINTED.exec(words);
  const seconds = untimed ? secondsIn(words) : null;
  const beside = firstOf(besideAt(BESIDE_X, words), besideAt(BESIDE_PLUS, words));
  const first = firstOf(firstOf(time, pointed), firstOf(seconds, beside));
  if (!first) return null;
  const found = shorten(first[0]);
  const mend = {
    time: 'put a time after @, on, rest, hold, drop or add',
    pointed: `write a time with a colon, as in ${found.replace('.', ':')}, after @, on, rest or hold`,
    seconds: `write rest ${/^\d+/.exec(found)?.[0] ?? '15'} for a rest, or @ and the interval`,
    beside: 'write a line for each set, with its count first',
  }[first === time ? 'time' : first === pointed ? 'pointed' : first === seconds ? 'seconds' : 'beside'];
  return { at: first.index, message: `${found} among the words would be lost: ${mend}` };
}

/** In seconds, of a time without a colon. */
const MOST_BARE = 99;

/** What a rest is called that stands behind its time; `between` with no word for it at all. */
const REST_BEHIND = /^\s*(rest|break|talk|between)(?![\p{L}\p{N}-])\s*/iu;

/** `1:00 rest between rounds`: nobody swims there. `at`, `end`: of its time, or of a number alone. */
export function restAsSwim(text: string, at: number, end: number): Flaw | null {
  const word = REST_BEHIND.exec(text.slice(end))?.[1]?.toLowerCase();
  if (word === undefined) return null;
  const time = text.slice(at, end).trim();
  // So many seconds are no time by themselves.
  const written = Number(time) > MOST_BARE ? '1:30' : time;
  const where = word === 'talk' ? '' : ' (between rounds: under them, indented like their sets)';
  return {
    at,
    message: `${time} ${word} is not a swim: write ${word === 'between' ? 'rest' : word} ${written}${where}`,
  };
}

function secondsIn(words: string): Found | null {
  SECONDS.lastIndex = 0;
  for (let found = SECONDS.exec(words); found; found = SECONDS.exec(words)) {
    if (!isPlural(words, found)) return found;
  }
  return null;
}

/** Distances, many of them: `by 25s`, `25s and 50s`. */
function isPlural(words: string, { index, 0: found }: Found): boolean {
  if (!/^\d+s$/i.test(found)) return false;
  return Number.parseInt(found, 10) % 25 === 0 || /(?<![\p{L}\p{N}-])(?:by|of|as|in)\s+$/iu.test(words.slice(0, index));
}

/** The first thing that would be lost in a heading, or null: a time with a colon, a number beside `x`, a multiple of 25. */
export function lostInHeading(heading: string): Flaw | null {
  const time = TIME_WITH_COLON.exec(heading);
  const beside = besideAt(BESIDE_X, heading);
  const distance = firstDistance(heading);
  const first = firstOf(firstOf(time, beside), distance);
  if (!first) return null;
  const message = `${shorten(first[0])} in a heading would be lost: write the set on a line of its own below it`;
  return { at: first.index, message };
}

/** Finds the pattern, then goes back over the number's first digits: a pattern doing both would be slow on long numbers. */
function besideAt(pattern: RegExp, text: string): Found | null {
  const found = pattern.exec(text);
  if (!found) return null;
  let index = found.index;
  while (/\d/.test(text.charAt(index - 1))) index -= 1;
  return { index, 0: text.slice(index, found.index + found[0].length) };
}

function firstDistance(heading: string): Found | null {
  NUMBER.lastIndex = 0;
  for (let found = NUMBER.exec(heading); found; found = NUMBER.exec(heading)) {
    const number = Number(found[0]);
    if (number > 0 && number % 25 === 0) return found;
  }
  return null;
}

function firstOf(a: Found | null, b: Found | null): Found | null {
  if (!a || !b) return a ?? b;
  return a.index <= b.index ? a : b;
}
