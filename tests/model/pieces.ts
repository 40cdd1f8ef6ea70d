/*
 * The pieces that a text is made of, as a rewrite compares them: what stands before the first
 * part, each heading, each line at its part's margin with what is indented under it.
 */

import { everyItem, isNote, lastLineBefore, linesOf, type ScenarioItem, type WrittenScenario } from './scenario.ts';

/** The lines that count, each with its number; one blank or with nothing but a comment does not. */
export type Piece = readonly { readonly line: number; readonly text: string }[];

export function piecesOf(written: WrittenScenario): Piece[] {
  const text = linesOf(written);
  const pieceOfLines = (lines: readonly number[]): Piece =>
    lines.map((line) => ({ line, text: whatCounts(text[line - 1] ?? '') })).filter((one) => one.text !== '');

  const pieces = [pieceOfLines(written.header.map((_line, index) => index + 1))];
  written.scenario.parts.forEach((part, index) => {
    const linesOfPieces = part.heading === null ? [] : [[lastLineBefore(written, index) + 1]];
    const first = part.items.find((item) => !isNote(item));
    const margin = first ? indentOf(text[first.line - 1]) : Infinity;
    for (const item of part.items) {
      // Lanes, rounds and their only set may stand on one line.
      const lines = [...new Set(everyItem([item]).map((one) => one.line))];
      // A note may stand as deep as it likes; deeper than the margin, it is of the piece above it, a heading's too.
      const isDeep = isNote(item) && indentOf(text[item.line - 1]) > margin;
      const above = linesOfPieces[linesOfPieces.length - 1];
      if (isDeep && above) above.push(...lines);
      else linesOfPieces.push(lines);
    }
    pieces.push(...linesOfPieces.map(pieceOfLines));
  });
  return pieces;
}

/** How many of the first pieces stand, the same and on the same lines, in both texts. */
export function samePieces(one: readonly Piece[], other: readonly Piece[]): number {
  const differing = one.findIndex((piece, index) => JSON.stringify(piece) !== JSON.stringify(other[index] ?? null));
  return differing < 0 ? one.length : differing;
}

/** Which piece holds a line of the text. */
export function pieceWith(pieces: readonly Piece[], line: number): number {
  const index = pieces.findIndex((piece) => piece.some((one) => one.line === line));
  if (index < 0) throw new RangeError(`no piece has line ${line}`);
  return index;
}

/** Whether a note stands indented under lines of some lanes, which may hold none. */
export function hasNoteUnderLanes(written: WrittenScenario): boolean {
  const text = linesOf(written);
  return written.scenario.parts.some(({ items }) => {
    const first = items.find((item) => !isNote(item));
    const margin = first ? indentOf(text[first.line - 1]) : Infinity;
    return items.some((item, index) => {
      if (!isNote(item) || indentOf(text[item.line - 1]) <= margin) return false;
      const above = items.slice(0, index).findLast((one) => !isNote(one));
      return above !== undefined && endsWithLanes(above);
    });
  });
}

/** Its last lines are for some lanes. */
export function endsWithLanes(item: ScenarioItem): boolean {
  if (item.kind !== 'rounds') return item.kind === 'lanes';
  const last = item.items.findLast((one) => !isNote(one));
  return last !== undefined && endsWithLanes(last);
}

/** The blanks before a line, a tab being four. */
export function indentOf(line: string | undefined): number {
  return (/^\s*/.exec(line ?? '')?.[0] ?? '').replaceAll('\t', '    ').length;
}

/** A line without its comment and without the blanks at its end. */
function whatCounts(line: string): string {
  return line.replace(/(^#|(?<=\s)#(?=\s|$)).*$/, '').trimEnd();
}
