/*
 * What could come where the cursor stands, from the notation and from what is known: few, and only where that saves
 * typing. What is offered begins with what stands there already.
 */

import { commentStart } from '../../../../app/core/session/text/lines.ts';
import { lineTokens, type Above } from '../../../../app/core/session/tokens/line-tokens.ts';
import { digitsOf, type KnownWords } from './known-words.ts';

export interface Offered {
  /** A character of the line: what stands from there to the cursor is replaced. */
  readonly from: number;
  readonly texts: readonly string[];
}

/** What is looked into, in this order. */
export interface Known {
  /** The session itself. */
  readonly own: KnownWords;
  /** The library's sessions and the squads. */
  readonly kept: KnownWords;
  readonly lanes: number;
  readonly hasCss: boolean;
}

export const MOST_OFFERED = 6;

const VALUE = String.raw`([\p{L}\d:.'+/-]*)$`;
const INTERVAL = new RegExp(String.raw`@\s*${VALUE}|\bon\s+(?=[\dbc])${VALUE}`, 'iu');
const REST = new RegExp(String.raw`\brest\s+${VALUE}`, 'iu');
const HOLD = new RegExp(String.raw`\bhold\s+${VALUE}`, 'iu');
const LANE = /^\s*(lane\s+(\d+)\s*)$/i;

const SETTINGS = ['pool 25 m', 'start ', 'finish ', 'gap 5', 'between 1:00', 'lane '];
const LINES = ['talk ', 'break ', 'note: ', 'kit: '];
const CLAUSES = ['rest ', 'hold ', 'odds ', 'evens '];

/** `before`: the line up to the cursor. `asked`: the coach wants to see what there is, also where nothing is typed yet. */
export function offeredAt(before: string, above: Above, known: Known, asked: boolean): Offered | null {
  if (commentStart(before) < before.length) return null;
  const clause = clauseOffered(before, above, known);
  if (clause) return few(before, clause.from, clause.texts, 0);
  const lane = LANE.exec(before);
  if (lane && above.inHeader) {
    const from = before.indexOf(lane[1]!);
    return few(
      before,
      from,
      both(known, (words) => words.on(`lane ${lane[2]!}`)),
      0,
    );
  }
  const first = /^\s*(\p{L}[\p{L} -]*)?$/u.exec(before);
  if (first) return few(before, before.search(/\S|$/), beginnings(above, known), asked ? 0 : 2);
  return wordsOffered(before, above, known, asked);
}

/** Behind `@`, `rest` and `hold`. */
function clauseOffered(before: string, above: Above, known: Known): Offered | null {
  const distance = distanceIn(before, above);
  if (distance === null) return null;
  const found = (pattern: RegExp): number | null => {
    const match = pattern.exec(before);
    return match && before.length - (match[1] ?? match[2] ?? '').length;
  };
  const interval = found(INTERVAL);
  if (interval !== null) {
    const used = both(known, (words) => words.on(`interval ${distance}`)).filter((text) => fits(text, known));
    return {
      from: interval,
      texts: [...used, 'base', 'base+10', 'base+5', ...(known.hasCss ? ['css', 'css+10'] : [])],
    };
  }
  const rest = found(REST);
  if (rest !== null)
    return { from: rest, texts: [...both(known, (words) => words.on('rest')), '10', '15', '20', '30'] };
  const hold = found(HOLD);
  if (hold === null) return null;
  const used = both(known, (words) => words.on('target')).filter((text) => fits(text, known));
  return { from: hold, texts: [...(known.hasCss ? ['css', 'css-2', 'css+3'] : []), ...used] };
}

/** A list has one value for each lane of this session, and only a lane with a css swims by it. */
function fits(text: string, { lanes, hasCss }: Known): boolean {
  if (!hasCss && /\bcss\b/i.test(text)) return false;
  const lists = text.split(',').map((list) => list.split('/').length);
  return lists.every((length) => length === 1 || length === lanes);
}

/** Of the set that the line is so far; null where it is none. */
function distanceIn(before: string, above: Above): string | null {
  const token = lineTokens(before, above).tokens.find(({ kind }) => kind === 'distance');
  return token ? digitsOf(before.slice(token.from, token.to)) : null;
}

function beginnings(above: Above, known: Known): readonly string[] {
  if (above.inHeader && !above.hasTitle) return [];
  const headings = both(known, (words) => words.on('heading'));
  return above.inHeader ? [...SETTINGS, ...headings] : [...headings, ...LINES];
}

/** Phrases that begin as the words so far, then words that begin as the last one. */
function wordsOffered(before: string, above: Above, known: Known, asked: boolean): Offered | null {
  const { tokens } = lineTokens(before, above);
  const last = tokens[tokens.length - 1];
  if (tokens.some(({ kind }) => kind === 'fault')) return null;
  const isWords = last?.kind === 'words' && last.to === before.length;
  const behindNumber = /\d\s+$/.test(before) && asked && tokens.some(({ kind }) => kind === 'distance');
  if (!isWords && !behindNumber) return null;
  const phrases = both(known, (words) => words.on('words'));
  if (!isWords) return few(before, before.length, phrases, 0);
  const whole = few(before, last.from, phrases, 2);
  if (whole) return whole;
  const at = before.length - /\S*$/.exec(before)![0].length;
  const single = phrases.flatMap((phrase) => phrase.split(/[\s,]+/)).filter((word) => /^\p{L}{4}/u.test(word));
  return few(before, at, [...CLAUSES, ...single], 2);
}

/** Those that begin with what stands there, of at least so many letters, and save two at least. */
function few(before: string, from: number, texts: readonly string[], least: number): Offered | null {
  const typed = before.slice(from).toLowerCase();
  if (typed.length < least) return null;
  const begin = [...new Set(texts)].filter((text) => {
    const saved = text.trimEnd().length - typed.length;
    return text.toLowerCase().startsWith(typed) && saved >= (least > 0 ? 2 : 1);
  });
  return begin.length === 0 ? null : { from, texts: begin.slice(0, MOST_OFFERED) };
}

function both({ own, kept }: Known, of: (words: KnownWords) => readonly string[]): readonly string[] {
  return [...of(own), ...of(kept)];
}
