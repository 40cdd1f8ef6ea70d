/*
 * Where a swimmer's name stands in words that people wrote: as a word of its own, composed or not, with any blanks
 * between its parts, in capitals or small letters. `Ana` is not in `Joana`, nor in `Ana-Maria`, who is somebody else.
 */

export interface NamePattern {
  /** Whether words are the name and nothing else. */
  is(words: string): boolean;
  /** Whether it stands among words. */
  isIn(words: string): boolean;
  /** The words with something else in its place. */
  replaced(words: string, by: string): string;
}

/** null for a name without a letter: no swimmer is called so. */
export function namePattern(name: string): NamePattern | null {
  const parts = name.normalize('NFC').trim().split(/\s+/);
  if (!/\p{L}/u.test(name)) return null;
  const form = (way: 'NFC' | 'NFD'): string => parts.map((part) => escaped(part.normalize(way))).join('\\s+');
  const source = `(?:${form('NFC')}|${form('NFD')})`;
  const flags = `g${flagsFor(name.normalize('NFC'))}`;
  const among = new RegExp(`(?<![\\p{L}\\p{M}\\p{N}])${source}(?![\\p{L}\\p{M}\\p{N}])`, flags);
  const alone = new RegExp(`^\\s*${source}\\s*$`, flags.replace('g', ''));
  const replaced = (words: string, by: string): string =>
    words.replace(among, (found: string, at: number) => (isPartOfAnother(words, at, at + found.length) ? found : by));
  return {
    is: (words) => alone.test(words),
    isIn: (words) => replaced(words, '') !== words,
    replaced,
  };
}

/** In letters: from so many on a name is found whatever its capitals. */
const SHORTEST_ANYHOW = 3;

/** An initial in small letters would be a word of every other sentence. */
export function flagsFor(name: string): 'u' | 'iu' {
  return Array.from(name.replace(/\s/g, '')).length < SHORTEST_ANYHOW ? 'u' : 'iu';
}

export function escaped(part: string): string {
  return part.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&');
}

/** A double name is joined by a hyphen and a capital letter. */
export function isPartOfAnother(words: string, from: number, to: number): boolean {
  const isFirst = /^[-\u2010\u2011]\p{Lu}/u.test(words.slice(to));
  return isFirst || (/\p{L}[-\u2010\u2011]$/u.test(words.slice(0, from)) && /^\p{Lu}/u.test(words.slice(from)));
}
