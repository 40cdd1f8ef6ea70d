/*
 * Where a fault stands in a text: its column as a character of its line, and the words it is about.
 */

/** How many faults are shown at once; a text with more is better read again. */
export const FAULTS_SHOWN = 200;

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
  let index = 0;
  for (const character of line) {
    if (at >= column) return index;
    at += character === '\t' ? 4 : 1;
    index += character.length;
  }
  return index;
}
