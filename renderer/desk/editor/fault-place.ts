/*
 * Where a fault stands in a text: its column as a character of its line, and the words it is about.
 */

import type { Fault } from '../../../app/core/result.ts';

/** The words of a fault, cut out of their line. */
export interface FaultMark {
  /** Of the text, from 0. */
  readonly row: number;
  /** What stands before the words, and the words. */
  readonly before: string;
  readonly words: string;
}

/** How many faults are shown at once; a text with more is better read again. */
export const FAULTS_SHOWN = 200;

/** The marks in the lines of a text; faults in lines that it does not have get none. */
export function faultMarks(lines: readonly string[], faults: readonly Fault[]): readonly FaultMark[] {
  const marks: FaultMark[] = [];
  for (const { line, column } of faults.slice(0, FAULTS_SHOWN)) {
    const row = line - 1;
    const written = lines[row];
    if (written === undefined) continue;
    const { from, to } = wordsAt(written, column);
    // Where something is missing at the end there is nothing to underline but room for it.
    marks.push({ row, before: written.slice(0, from), words: written.slice(from, to) || '\u00a0\u00a0' });
  }
  return marks;
}

/** From a column (from 1) of a line to the end of the word that it is in, as characters of the line. */
export function wordsAt(line: string, column: number): { readonly from: number; readonly to: number } {
  const end = line.replace(/\s+$/, '').length;
  const from = Math.min(characterAt(line, column), end);
  const word = /^\s*\S+/.exec(line.slice(from, end));
  return { from, to: from + (word ? word[0].length : 0) };
}

/** The character of a line at a column (from 1; a tab counts as 4 columns), or the line's end. */
export function characterAt(line: string, column: number): number {
  let at = 1;
  for (let index = 0; index < line.length; index++) {
    if (at >= column) return index;
    at += line.charAt(index) === '\t' ? 4 : 1;
  }
  return line.length;
}
