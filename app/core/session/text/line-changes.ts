/*
 * The differences between two texts, line by line. They are needed when a rewrite was made from a text that is no
 * longer in force, and when a line begins while the coach is changing it.
 */

import { spanned } from '../../words/phrase.ts';

/** Lines `from` up to but not including `to` (from 0) of the old text, and the lines that replace them. */
export interface Change {
  readonly from: number;
  readonly to: number;
  readonly by: readonly string[];
}

/** The most cells the table of common lines may have. If it needs more, the whole middle counts as changed. */
const MOST_CELLS = 4_000_000;

/** The changes from one text to the other, in order, with lines in common between them; none if the texts are equal. */
export function changesOf(before: readonly string[], after: readonly string[]): readonly Change[] {
  const first = before.findIndex((line, index) => line !== after[index]);
  const start = first < 0 ? before.length : first;
  let [endBefore, endAfter] = [before.length, after.length];
  while (endBefore > start && endAfter > start && before[endBefore - 1] === after[endAfter - 1]) {
    endBefore--;
    endAfter--;
  }
  const [was, is] = [before.slice(start, endBefore), after.slice(start, endAfter)];
  if (was.length * is.length > MOST_CELLS) return [{ from: start, to: endBefore, by: is }];
  return withinMiddle(was, is, start);
}

/** The text with changes made in it. They must not overlap; they may come in any order. */
export function withChanges(before: readonly string[], changes: readonly Change[]): readonly string[] {
  const lines: string[] = [];
  let at = 0;
  for (const { from, to, by } of [...changes].sort((a, b) => a.from - b.from)) {
    for (const line of before.slice(at, from)) lines.push(line);
    for (const line of by) lines.push(line);
    at = to;
  }
  for (const line of before.slice(at)) lines.push(line);
  return lines;
}

/** Whether two changes touch the same lines, or insert at the same place. */
export function overlap(a: Change, b: Change): boolean {
  return (a.from < b.to && b.from < a.to) || a.from === b.from;
}

/**
 * "line 4 is changed", "lines 4 to 6 are changed", "line 9 is new": by the numbers in `after`. "lines 2 and 3 are
 * gone": by the numbers in `before`.
 */
export function changedText(before: readonly string[], after: readonly string[]): string {
  let shift = 0;
  const texts = changesOf(before, after).map(({ from, to, by }) => {
    const gone = to - from;
    const at = from + shift;
    shift += by.length - gone;
    // Lines that are gone have numbers only in the old text.
    if (by.length === 0) return `${numbered(from, gone)} gone`;
    return `${numbered(at, by.length)} ${gone === 0 ? 'new' : 'changed'}`;
  });
  const more = texts.length - MOST_NAMED;
  return [...texts.slice(0, MOST_NAMED), ...(more > 0 ? [`and ${more} more`] : [])].join(', ');
}

/** The most changes that the sentence names. */
const MOST_NAMED = 4;

function numbered(from: number, count: number): string {
  return `${spanned('line', from + 1, from + count)} ${count === 1 ? 'is' : 'are'}`;
}

/**
 * The changes by the longest common subsequence of lines. The table holds how many lines each pair of tails has in
 * common. The first lines must differ.
 */
function withinMiddle(was: readonly string[], is: readonly string[], offset: number): readonly Change[] {
  const common = Array.from({ length: was.length + 1 }, () => new Uint32Array(is.length + 1));
  for (let row = was.length - 1; row >= 0; row--) {
    const [here, below] = [common[row]!, common[row + 1]!];
    for (let column = is.length - 1; column >= 0; column--) {
      here[column] = was[row] === is[column] ? below[column + 1]! + 1 : Math.max(below[column]!, here[column + 1]!);
    }
  }
  const changes: Change[] = [];
  let [row, column] = [0, 0];
  while (row < was.length || column < is.length) {
    const [from, first] = [row, column];
    // Past both ends they do not differ.
    while (was[row] !== is[column]) {
      if (column === is.length || (row < was.length && common[row + 1]![column]! >= common[row]![column + 1]!)) row++;
      else column++;
    }
    changes.push({ from: offset + from, to: offset + row, by: is.slice(first, column) });
    while (row < was.length && was[row] === is[column]) {
      row++;
      column++;
    }
  }
  return changes;
}
