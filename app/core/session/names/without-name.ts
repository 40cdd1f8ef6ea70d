/*
 * Texts without a swimmer's name. In a lane's line a word for the place in the lane takes it, so that the lane has as
 * many swimmers as before; among other words `somebody` does. What says how a line is read is left alone, so that a
 * session is swum as before.
 */

import { MOST_CHARACTERS } from '../text/lines.ts';
import type { Token, TokenKind } from '../tokens/token.ts';
import { eachLine, isLaneLine, namesIn } from './lane-names.ts';
import type { NamePattern } from './name-pattern.ts';

/** The text of a session or of a lanes file, whatever its faults. */
export function textWithoutName(text: string, name: NamePattern): string {
  if (!name.isIn(text)) return text;
  return eachLine(text, (raw, tokens) => lineWithoutName(raw, tokens, name));
}

/** Any other words. most: how many characters there may be. */
export function wordsWithoutName(words: string, name: NamePattern, most = Infinity): string {
  const without = name.replaced(words, SOMEBODY);
  return without.length <= most ? without : name.replaced(words, SHORT);
}

const SOMEBODY = 'somebody';

/** No longer than any name, where there is no room for more. */
const SHORT = 'N';

const FREE: readonly TokenKind[] = ['comment', 'title', 'heading', 'words', 'fault'];

function lineWithoutName(raw: string, tokens: readonly Token[], name: NamePattern): string {
  const isLane = isLaneLine(raw, tokens);
  const names = isLane ? namesIn(raw, tokens) : [];
  const written = (short: boolean): string => {
    let [line, end] = ['', 0];
    for (const token of tokens) {
      const words = raw.slice(token.from, token.to);
      const place = names.indexOf(token);
      line += raw.slice(end, token.from);
      if (place >= 0) line += inLane(words, place, short, name);
      else line += isLane && token.kind !== 'comment' ? words : amongWords(words, token, short, name);
      end = token.to;
    }
    return line + raw.slice(end);
  };
  const line = written(false);
  return Array.from(line).length <= MOST_CHARACTERS ? line : written(true);
}

/** place: from 0. */
function inLane(words: string, place: number, short: boolean, name: NamePattern): string {
  return name.is(words) ? (short ? SHORT : (PLACES[place] ?? SHORT)) : words;
}

function amongWords(words: string, { kind }: Token, short: boolean, name: NamePattern): string {
  return FREE.includes(kind) ? name.replaced(words, short ? SHORT : SOMEBODY) : words;
}

/** Names have no digits. */
const PLACES = [
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
  'twenty',
];
