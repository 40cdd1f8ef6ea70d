/*
 * The one sure mend of a fault, where there is one. What is only likely is left to the coach: a mend is sure where the
 * words at fault can be meant in one way alone, and the line can be read once it is made.
 */

import type { Fault } from '../../result.ts';
import { textLines } from '../text/lines.ts';
import { match } from '../values/time.ts';
import { nearWord } from '../line/near-word.ts';
import { lineTokens, NOTHING_ABOVE, type Above } from './line-tokens.ts';

export interface Mend {
  /** Characters of the line, and what stands there instead. */
  readonly from: number;
  readonly to: number;
  readonly by: string;
}

interface Slip {
  /** What stands at the fault, and before it where that tells what was meant. */
  readonly slip: RegExp;
  readonly by: string;
}

const TIME_BEFORE = /(\d*:?\d+(?::\d\d)?(?:\s*(?:s|secs?|seconds?|mins?|minutes?)(?!\p{L}))?)\s*/u.source;

const SLIPS: readonly Slip[] = [
  { slip: new RegExp(`${TIME_BEFORE}(rest|break|talk)(?![\\p{L}\\p{N}-])`, 'iuy'), by: '$2 $1' },
  { slip: new RegExp(`${TIME_BEFORE}(between)(?![\\p{L}\\p{N}-])`, 'iuy'), by: 'rest $1 $2' },
  // An interval of 1.3 seconds is none: 1.30 is 1:30.
  { slip: /(?<=(?:@|\bon|\bon the)\s*(?:[^@]*[/,]\s*)?)(\d{1,2})\.([0-5]\d)(?![\d.:])/iy, by: '$1:$2' },
  // Anywhere else a nought at the end may be meant as nothing: 1.30 may be 1.3. Other second figures are no tenths.
  { slip: /(\d{1,2})\.([0-5][1-9])(?![\d.:])/y, by: '$1:$2' },
  { slip: /(\d{1,2}),(\d)(?=\s|$)/y, by: '$1.$2' },
  // The letter O, which looks like a nought: 1:3O, 1:O5, 1OO.
  { slip: /(\d[\d:]*)oo(?!\p{L})/iuy, by: '$100' },
  { slip: /(\d[\d:]*)o(?!\p{L})/iuy, by: '$10' },
  { slip: /(rest|ri|hold|drop|add|lane|pool|start|finish|gap|between|grid)(?=:?\d)/iy, by: '$1 ' },
  { slip: /(?<=\b(?:drop|add|hold)\s+\S+)\s(?=\p{L})/iuy, by: ', ' },
  { slip: /(?<=^\s*lane\s.*\b(?:base|css|gap)\s+\S+)\s(?=(?:base|css|gap)\s|\d+\s*swimmer)/iuy, by: ', ' },
];

/** The sure mend of a fault, at a character of its line; null where there is none. */
export function sureMend(text: string, { line }: Pick<Fault, 'line'>, at: number): Mend | null {
  return sureMendIn(textLines(text), { line }, at);
}

/** The same for a text by its lines, for who asks of many faults. */
export function sureMendIn(lines: readonly string[], { line }: Pick<Fault, 'line'>, at: number): Mend | null {
  const raw = lines[line - 1];
  if (raw === undefined) return null;
  const above = aboveLine(lines, line);
  for (const { slip, by } of SLIPS) {
    // A word too close behind a value: the fault is the word, the slip the space before it.
    for (const from of [at, Math.max(0, at - 1)]) {
      const found = match(slip, raw, from);
      if (!found) continue;
      const to = from + found[0].length;
      const mend = { from, to, by: by.replace(/\$(\d)/g, (_, group: string) => found[Number(group)]!) };
      if (canBeRead(mended(raw, mend), above)) return mend;
    }
  }
  return mendOfWord(raw, at, above);
}

/** Of the word at the fault, of the one before it, or of the line's first: where it is meant as one of the notation's words. */
function mendOfWord(raw: string, at: number, above: Above): Mend | null {
  const words: { readonly word: string; readonly from: number }[] = [];
  raw.replace(/\p{L}+/gu, (word, from: number) => {
    words.push({ word, from });
    return word;
  });
  const behind = words.findIndex(({ word, from }) => from + word.length > at);
  const near = behind < 0 ? words.length : behind;
  for (const each of new Set([words[near], words[near - 1], words[0]])) {
    const by = each && nearWord(each.word);
    if (!by) continue;
    const mend = { from: each.from, to: each.from + each.word.length, by };
    if (canBeRead(mended(raw, mend), above)) return mend;
  }
  return null;
}

/** What the lines above a line say of it. */
function aboveLine(lines: readonly string[], line: number): Above {
  let above = NOTHING_ABOVE;
  for (let index = 0; index < line - 1 && above.inHeader; index++) above = lineTokens(lines[index]!, above).above;
  return above;
}

function canBeRead(raw: string, above: Above): boolean {
  return lineTokens(raw, above).tokens.every(({ kind }) => kind !== 'fault');
}

export function mended(raw: string, { from, to, by }: Mend): string {
  return raw.slice(0, from) + by + raw.slice(to);
}
