/*
 * What a coach has written before, by what it was: words of sets, the intervals, rests and targets of a distance, headings
 * and lanes. What was said last, and most often, comes first.
 */

import { NOTHING_ABOVE } from '../../../../app/core/session/tokens/line-tokens.ts';
import type { Token, TokenKind } from '../../../../app/core/session/tokens/token.ts';
import { readLine } from '../lines/read-line.ts';

/** What is known of one kind. */
export type Shelf = 'words' | 'heading' | 'rest' | 'target' | `interval ${string}` | `lane ${string}`;

const VALUES: { readonly [kind in TokenKind]?: 'interval' | 'rest' | 'target' } = {
  interval: 'interval',
  rest: 'rest',
  target: 'target',
};

export class KnownWords {
  private readonly shelves = new Map<Shelf, Map<string, number>>();

  /** Lines as they stand below each other; what is read later counts as said before. */
  read(lines: Iterable<string>): void {
    let above = NOTHING_ABOVE;
    for (const line of lines) {
      const read = readLine(line, above);
      above = read.above;
      this.take(line, read.tokens);
    }
  }

  /** Best first. */
  on(shelf: Shelf): readonly string[] {
    const known = this.shelves.get(shelf);
    if (!known) return [];
    return [...known].sort(([, a], [, b]) => b - a).map(([text]) => text);
  }

  private take(line: string, tokens: readonly Token[]): void {
    const text = ({ from, to }: Token): string => line.slice(from, to);
    if (tokens.some(({ kind }) => kind === 'fault')) return;
    const distance = tokens.find(({ kind }) => kind === 'distance');
    for (const [at, token] of tokens.entries()) {
      if (token.kind === 'words') this.put('words', text(token));
      if (token.kind === 'heading') this.put('heading', text(token));
      const kind = VALUES[token.kind];
      if (!kind || tokens[at - 1]?.kind === token.kind) continue;
      // A list is one thing, with its slashes and commas.
      const list = lastOf(tokens, at);
      const values = line.slice(token.from, list.to);
      if (kind === 'interval') this.put(`interval ${distance ? digitsOf(text(distance)) : ''}`, values);
      else this.put(kind, values);
    }
    const [first, second] = tokens;
    if (first?.kind === 'setting' && second && /^lane\b/i.test(text(first)) && tokens.length > 2) {
      const end = tokens[tokens.length - 1]!;
      const to = end.kind === 'comment' ? tokens[tokens.length - 2]!.to : end.to;
      this.put(`lane ${text(second)}`, line.slice(first.from, to));
    }
  }

  private put(shelf: Shelf, text: string): void {
    const known = this.shelves.get(shelf) ?? new Map<string, number>();
    known.set(text, (known.get(text) ?? 0) + 1);
    this.shelves.set(shelf, known);
  }
}

/** Without a unit: "100" of "100m" and "100s". */
export function digitsOf(distance: string): string {
  return /^[\d.]*/.exec(distance)![0];
}

/** The last of the values that go on from one. */
function lastOf(tokens: readonly Token[], at: number): Token {
  let last = at;
  while (tokens[last + 1]?.kind === tokens[at]!.kind) last++;
  return tokens[last]!;
}
