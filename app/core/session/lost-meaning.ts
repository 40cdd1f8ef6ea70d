/*
 * Words are free, but some must not hide what the clock would then miss: a time, a count beside an x, or a distance
 * in a heading is probably meant as a set.
 */

import type { Flaw } from './flaw.ts';
import { shorten } from './time.ts';

interface Found {
  readonly index: number;
  readonly [0]: string;
}

const COLON_TIME = /(?:\d{1,2}:)?\d{0,2}:\d\d(?!\d)/;
const BESIDE_X = /\d\s*(?:[×*]|x(?!\p{L}))|(?:[×*]|(?<!\p{L})x)\s*\d/iu;
const BESIDE_PLUS = /\d\s*\+|\+\s*\d/;
const NUMBER = /\d+(?:\.\d+)?/g;

/** The first thing that would be lost in words, or null: a time with a colon, or a number beside `x` or `+`. */
export function lostInWords(words: string): Flaw | null {
  const time = COLON_TIME.exec(words);
  const first = firstOf(time, firstOf(besideAt(BESIDE_X, words), besideAt(BESIDE_PLUS, words)));
  if (!first) return null;
  const mend =
    first === time
      ? 'put a time after @, on, rest, hold, drop or add'
      : 'write a line for each set, with its count first';
  return { at: first.index, message: `${shorten(first[0])} among the words would be lost: ${mend}` };
}

/** The first thing that would be lost in a heading, or null: a time with a colon, a number beside `x`, a multiple of 25. */
export function lostInHeading(heading: string): Flaw | null {
  const time = COLON_TIME.exec(heading);
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
