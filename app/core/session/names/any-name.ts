/*
 * Any of many names among words. A squad of twenty lanes has hundreds, and a text thousands of words: only the names that
 * begin with one of the words are looked for.
 */

import { namePattern, type NamePattern } from './name-pattern.ts';

interface Placed {
  readonly order: number;
  readonly pattern: NamePattern;
}

/** In words that have several of the names, the longer ones are taken first. */
export function anyName(names: readonly string[]): NamePattern {
  const ordered = [...new Set(names)].sort((a, b) => b.length - a.length);
  const byFirst = new Map<string, Placed[]>();
  for (const [order, name] of ordered.entries()) {
    const pattern = namePattern(name);
    const [first] = wordsIn(name);
    if (pattern && first !== undefined) byFirst.set(first, [...(byFirst.get(first) ?? []), { order, pattern }]);
  }
  const likely = (words: string): readonly NamePattern[] => {
    const found: Placed[] = [];
    for (const word of wordsIn(words)) found.push(...(byFirst.get(word) ?? []));
    return found.sort((a, b) => a.order - b.order).map(({ pattern }) => pattern);
  };
  return {
    is: (words) => likely(words).some((name) => name.is(words)),
    isIn: (words) => likely(words).some((name) => name.isIn(words)),
    replaced: (words, by) => likely(words).reduce((left, name) => name.replaced(left, by), words),
  };
}

/** Letters and digits that stand together, however they are composed and whatever their capitals. */
function wordsIn(text: string): ReadonlySet<string> {
  const composed = text.normalize('NFC').toUpperCase().toLowerCase();
  return new Set(composed.match(/[\p{L}\p{M}\p{N}]+/gu) ?? []);
}
