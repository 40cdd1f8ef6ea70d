/*
 * The lines of a text that are kept for another session: those chosen, or the part that the cursor is in.
 */

import { parseSession } from '../../../app/core/session/parse.ts';
import { textLines } from '../../../app/core/session/text/lines.ts';

export interface ChosenLines {
  /** From 1. */
  readonly from: number;
  readonly to: number;
  /** Nothing is chosen: `from` is the line that the cursor is on. */
  readonly isCursor: boolean;
}

/** null where there is nothing to keep: the cursor stands above the first part. */
export function keptLines(text: string, { from, to, isCursor }: ChosenLines): string | null {
  const lines = textLines(text);
  const [first, last] = isCursor ? partAround(text, lines.length, from) : [from, to];
  const kept = lines
    .slice(first - 1, last)
    .join('\n')
    .replace(/^\s*\n|\s+$/g, '');
  return first === 0 || kept.trim() === '' ? null : `${kept}\n`;
}

function partAround(text: string, count: number, line: number): readonly [first: number, last: number] {
  const session = parseSession(text, null);
  const headings = session.ok ? session.value.parts.map((part) => part.line ?? part.items[0]?.line ?? 1) : [];
  const first = headings.filter((each) => each <= line).pop();
  if (first === undefined) return [0, 0];
  return [first, (headings.find((each) => each > line) ?? count + 1) - 1];
}
