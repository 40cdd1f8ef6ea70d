/*
 * The tokens of a line in the editor. What was read is kept, because the same lines are asked for again with each key and
 * each pause.
 */

import type { Text } from '@codemirror/state';
import {
  lineTokens,
  NOTHING_ABOVE,
  type Above,
  type LineTokens,
} from '../../../../app/core/session/tokens/line-tokens.ts';

const MOST_KEPT = 2000;

const kept = new Map<string, LineTokens>();

export function readLine(line: string, above: Above): LineTokens {
  const { inHeader, hasTitle, pool } = above;
  const key = `${inHeader} ${hasTitle} ${pool.length} ${pool.unit} ${line}`;
  const known = kept.get(key);
  if (known) return known;
  if (kept.size >= MOST_KEPT) kept.clear();
  const read = lineTokens(line, above);
  kept.set(key, read);
  return read;
}

/** What the lines above one (from 1) say of it: behind the header nothing more is said. */
export function aboveLine(doc: Text, number: number): Above {
  let above = NOTHING_ABOVE;
  for (let each = 1; each < number && above.inHeader; each++) above = readLine(doc.line(each).text, above).above;
  return above;
}
