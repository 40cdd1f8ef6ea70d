/*
 * The swimmers' names in the lanes' lines of a text, by the lines' tokens, whatever faults the text has.
 */

import { lineTokens, NOTHING_ABOVE } from '../tokens/line-tokens.ts';
import type { Token } from '../tokens/token.ts';

/** The text with other lines in place of its own, each made from one without its line end. */
export function eachLine(text: string, made: (raw: string, tokens: readonly Token[]) => string): string {
  let above = NOTHING_ABOVE;
  const lines = text.split('\n').map((line) => {
    const raw = line.replace(/\r$/, '');
    const read = lineTokens(raw, above);
    above = read.above;
    return made(raw, read.tokens) + line.slice(raw.length);
  });
  return lines.join('\n');
}

/** No other setting has the word in it. */
export function isLaneLine(raw: string, tokens: readonly Token[]): boolean {
  return tokens.some(({ kind, from, to }) => kind === 'setting' && /lane/i.test(raw.slice(from, to)));
}

/** Those of a lane's line: all words but those of `5 swimmers`, which no comma parts from their number. */
export function namesIn(raw: string, tokens: readonly Token[]): readonly Token[] {
  return tokens.filter(({ kind, from }, index) => {
    if (kind !== 'words') return false;
    const isBehindLane = tokens[index - 2]!.kind === 'setting';
    return isBehindLane || raw.slice(tokens[index - 1]!.to, from).trim() !== '';
  });
}
