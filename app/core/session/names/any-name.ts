/*
 * Any of many names among words, however their letters are written: `Zoe` and `ZOË` are both `Zoë`, `Soren` and
 * `Soeren` both `Søren`. A squad of twenty lanes has hundreds, and a text thousands of words: at each word only the names that begin with it are looked for. A word
 * that says how fast a set is swum, such as `easy`, stays though somebody is called so.
 */

import { compare } from '../../ratio.ts';
import { factorOf } from '../lanes/pace.ts';
import { escaped, flagsFor, isPartOfAnother, type NamePattern } from './name-pattern.ts';
import { plainLetters, spelledOut } from './plain-letters.ts';

interface Span {
  readonly from: number;
  readonly to: number;
}

/** Of names that begin with the same word, the longer ones are taken first. */
export function anyName(names: readonly string[]): NamePattern {
  const byFirst = new Map<string, RegExp[]>();
  const spelled = new Set([...names, ...names.map(spelledOut)]);
  const plain = new Set([...spelled].map((name) => plainOf(name).replace(/^[^\p{L}\p{N}]+|\s+$/gu, '')));
  for (const name of [...plain].sort((a, b) => b.length - a.length)) {
    const [first] = name.match(WORD) ?? [];
    if (first === undefined || !/\p{L}/u.test(name) || saysPace(name)) continue;
    const source = name.split(/\s+/).map(escaped).join('\\s+');
    const pattern = new RegExp(`${source}(?![\\p{L}\\p{N}])`, `${flagsFor(name)}y`);
    byFirst.set(keyOf(first), [...(byFirst.get(keyOf(first)) ?? []), pattern]);
  }

  const lengthAt = (text: string, at: number, word: string): number => {
    for (const pattern of byFirst.get(keyOf(word)) ?? []) {
      pattern.lastIndex = at;
      const length = pattern.exec(text)?.[0].length ?? 0;
      if (length > 0 && !isPartOfAnother(text, at, at + length)) return length;
    }
    return 0;
  };
  const spansIn = (words: string): readonly Span[] => {
    const { text, places } = plainWith(words);
    const spans: Span[] = [];
    let end = 0;
    eachMatch(WORD, text, (word, index) => {
      const length = index < end ? 0 : lengthAt(text, index, word);
      if (length === 0) return;
      end = index + length;
      spans.push(places ? { from: places[index]!, to: places[end]! } : { from: index, to: end });
    });
    return spans;
  };
  return {
    is: (words) => spansIn(words).some(({ from, to }) => words.slice(from, to) === words.trim()),
    isIn: (words) => words.split('\n').some((line) => spansIn(line).length > 0),
    replaced(words, by) {
      let [left, end] = ['', 0];
      for (const { from, to } of spansIn(words)) {
        left += words.slice(end, from) + by;
        end = to;
      }
      return left + words.slice(end);
    },
  };
}

/** Whether it is a word that says how fast a set is swum, or half of one that does, such as `warm down`. */
function saysPace(name: string): boolean {
  const usual = factorOf('', '');
  return [name, `swim-${name}`, `${name}-down`].some((words) => compare(factorOf(words, ''), usual) !== 0);
}

const WORD = /[\p{L}\p{N}]+/gu;
const LETTER = /\P{M}\p{M}*|\p{M}+/gu;

function eachMatch(pattern: RegExp, text: string, met: (found: string, at: number) => void): void {
  text.replace(pattern, (found: string, at: number) => {
    met(found, at);
    return '';
  });
}

function keyOf(word: string): string {
  return word.toUpperCase().toLowerCase();
}

/** Plain letters; of hyphens and apostrophes the plain one. */
function plainOf(words: string): string {
  return plainLetters(words)
    .replace(/\u2010/g, '-')
    .replace(/[\u2018\u2019\u02bb\u02bc]/g, "'");
}

/** The plain text of words, and where in them each of its characters stands, and its end; null where all stay in place. */
function plainWith(words: string): { readonly text: string; readonly places: readonly number[] | null } {
  if (/^[\t -~]*$/.test(words)) return { text: words, places: null };
  let text = '';
  const places: number[] = [];
  eachMatch(LETTER, words, (letter, index) => {
    text += plainOf(letter);
    while (places.length < text.length) places.push(index);
  });
  return { text, places: [...places, words.length] };
}
