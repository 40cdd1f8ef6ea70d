/*
 * The tokens behind a distance: each clause with its keyword and its values, and the words between them. Where the
 * clauses stand is what the reading of the line has found.
 */

import type { Clauses, ClauseSpan } from '../line/clauses.ts';
import type { Token, TokenKind } from './token.ts';

/** What a clause begins with; a rest may have its word behind it. */
const OPENING = /^(?:@|on\s+the|\p{L}+)/iu;
/** What stands among its values, or behind them. */
const STEP = /drop|add/i;
const REST_BEHIND = /(?:rest|ri)$/i;
/** Between slashes, or commas of a list a rep. */
const VALUE = /[^\s/,](?:[^/,]*[^\s/,])?/g;

const VALUES = { interval: 'interval', rest: 'rest', hold: 'target' } as const;

export function clauseTokens(text: string, from: number, { spans }: Clauses): Token[] {
  const tokens: Token[] = [];
  let at = from;
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    tokens.push(...wordTokens(text, at, span.from), ...tokensIn(text, span));
    at = span.to;
  }
  return [...tokens, ...wordTokens(text, at, text.length)];
}

/** Free words between two places, without the spaces and commas around them. */
export function wordTokens(text: string, from: number, to: number): Token[] {
  const found = /[^\s,](?:[^]*[^\s,])?/.exec(text.slice(from, to));
  if (!found) return [];
  const start = from + found.index;
  return [{ kind: 'words', from: start, to: start + found[0].length }];
}

function tokensIn(text: string, { kind, from, to }: ClauseSpan): Token[] {
  if (kind === 'half') return [{ kind: 'keyword', from, to }];
  const clause = text.slice(from, to);
  const values = from + (OPENING.exec(clause)?.[0].length ?? 0);
  const word = STEP.exec(clause) ?? REST_BEHIND.exec(clause);
  const at = from + (word?.index ?? clause.length);
  const behind = at + (word?.[0].length ?? 0);
  return [
    ...keyword(from, values),
    ...valuesIn(text, values, at, VALUES[kind]),
    ...keyword(at, behind),
    ...valuesIn(text, behind, to, 'step'),
  ];
}

function keyword(from: number, to: number): Token[] {
  return from < to ? [{ kind: 'keyword', from, to }] : [];
}

/** A token a value of a list. */
export function valuesIn(text: string, from: number, to: number, kind: TokenKind): Token[] {
  return [...matches(VALUE, text.slice(from, to))].map(({ index, 0: value }) => ({
    kind,
    from: from + index,
    to: from + index + value.length,
  }));
}

/** Where what stands before an index ends, without the blanks behind it. */
export function endBefore(text: string, at: number): number {
  return text.slice(0, at).replace(/\s+$/, '').length;
}

function* matches(pattern: RegExp, text: string): Generator<RegExpExecArray> {
  const own = new RegExp(pattern.source, pattern.flags);
  for (let found = own.exec(text); found; found = own.exec(text)) yield found;
}
