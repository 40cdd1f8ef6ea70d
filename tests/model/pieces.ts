/*
 * The pieces that a text is made of, as run.md's `rewrite` has them: what stands before the first
 * part, each heading, each line at its part's margin with what is indented under it.
 */

import { everyItem, lastLineBefore, linesOf, type WrittenScenario } from './scenario.ts';

/** The lines that count, each with its number; one blank or with nothing but a comment does not. */
export type Piece = readonly { readonly line: number; readonly text: string }[];

export function piecesOf(written: WrittenScenario): Piece[] {
  const text = linesOf(written);
  const pieceOfLines = (lines: readonly number[]): Piece =>
    lines.map((line) => ({ line, text: whatCounts(text[line - 1] ?? '') })).filter((one) => one.text !== '');

  const pieces = [pieceOfLines(written.header.map((_line, index) => index + 1))];
  written.scenario.parts.forEach((part, index) => {
    if (part.heading !== null) pieces.push(pieceOfLines([lastLineBefore(written, index) + 1]));
    for (const item of part.items) {
      // Rounds and their only set may stand on one line.
      const lines = new Set(everyItem([item]).map((one) => one.line));
      pieces.push(pieceOfLines([...lines]));
    }
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

/** A line without its comment and without the blanks at its end. */
function whatCounts(line: string): string {
  return line.replace(/(^#|(?<=\s)#(?=\s|$)).*$/, '').trimEnd();
}
