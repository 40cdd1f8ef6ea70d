/*
 * A text as a row of pieces, which is how a session is rewritten while it runs: all that stands before
 * the first part, each heading, and each line at its part's margin with what is indented under it, a note or kit line too.
 */

import { contentOf, textLines } from './lines.ts';
import type { Session } from '../session.ts';

/** The lines of a session's text that belong together, counted from 1. */
export interface Piece {
  /** Its first line; 1 for the piece before the first part. */
  readonly first: number;
  /** Its last line that is not empty; first − 1 if all are. */
  readonly last: number;
}

/** The pieces of a text without faults; `session` was read from it. The piece before the parts is always there. */
export function piecesOf(text: string, session: Session): readonly Piece[] {
  const lines = textLines(text);
  const firsts = [1];
  for (const part of session.parts) {
    if (part.line !== null) firsts.push(part.line);
    for (const item of part.items) firsts.push(item.line);
  }
  for (const note of session.notes) if (note.atMargin) firsts.push(note.line);
  firsts.sort((a, b) => a - b);
  return firsts.map((first, index) => {
    let last = (firsts[index + 1] ?? lines.length + 1) - 1;
    while (last >= first && contentOf(lines[last - 1]!) === '') last--;
    return { first, last };
  });
}

/**
 * How many of the first pieces are the same and on the same lines in both texts. Blank lines, comments and blanks at
 * a line's end do not count.
 */
export function samePieces(
  before: readonly Piece[],
  after: readonly Piece[],
  textBefore: string,
  textAfter: string,
): number {
  const changed = firstChange(textLines(textBefore), textLines(textAfter));
  let same = 0;
  while (same < before.length && same < after.length) {
    const [was, is] = [before[same]!, after[same]!];
    if (was.first !== is.first || was.last !== is.last || was.last >= changed) break;
    same++;
  }
  return same;
}

/** The first line whose content differs; Infinity if there is none. Where one text goes on, its pieces end elsewhere. */
function firstChange(before: readonly string[], after: readonly string[]): number {
  const both = Math.min(before.length, after.length);
  for (let index = 0; index < both; index++) {
    const [was, is] = [before[index]!, after[index]!];
    if (was !== is && contentOf(was) !== contentOf(is)) return index + 1;
  }
  return Infinity;
}
