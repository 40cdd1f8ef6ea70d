/*
 * TIME as coaches write it: `1:30`, `:45`, `1:02:30`, `1:12.5`, `90`, `15 s`, `10 min`, `1'30"`, `45"`. What is
 * nearly a time (`1.30`, `130`) is refused with what may have been meant, never guessed.
 */

import type { Millis } from '../../units.ts';
import { HOUR, MINUTE, SECOND } from '../../units.ts';
import { reading } from '../../words/time/reading.ts';
import type { Flaw } from './flaw.ts';

export interface ReadTime {
  readonly ms: Millis;
  /** The index after the time and its unit. */
  readonly end: number;
  /** Whether it is a number of seconds without a colon. */
  readonly bare: boolean;
}

/** Digits, colons and points together; a point or colon at the end is punctuation. */
const TOKEN = /:?\d(?:[\d:.]*\d)?/y;
const WITH_COLON = /^(?:(\d):([0-5]\d)|(\d{0,2})):([0-5]\d)(?:\.(\d))?$/;
const BARE = /^(\d{1,2})(?:\.(\d))?$/;
const UNIT = /\s*(seconds?|secs?|s|minutes?|mins?)(?![\p{L}\p{N}-])/iuy;
/** `45"`, `28.5''`; keyboards and phones put other signs for both primes. */
const PRIMED_SECONDS = /(\d{1,2})(?:\.(\d))?(?:["”″]|['’′]{2})/y;
/** `2'`, `1'30`, `1'30.5"`. */
const PRIMED_MINUTES = /(\d{1,2})['’′](?!['’′])(?:([0-5]\d)(?:\.(\d))?(?:["”″]|['’′]{2})?)?/y;
/** What cannot stand right behind a time: it would be part of it, and is not. */
const GLUED = /(?:[\p{L}\p{N}:'’′"”″]|,\d(?![\d:])|[.\u2010-\u2015\u2212-]\d)[^\s/@]*/uy;

/** The time at an index; a flaw if there is none, or only something like one. 0:00 is a time. */
export function timeAt(text: string, at: number): ReadTime | Flaw {
  const primed = primedAt(text, at);
  if (primed) return primed;
  const token = tokenAt(text, at);
  if (token === '') return { at, message: `a time is missing${found(text, at)}: write it as 1:30, or 90 for seconds` };
  const read = readToken(token);
  const behind = at + token.length;
  const glued = match(GLUED, text, behind);
  const unit = match(UNIT, text, behind);
  // With a colon the time already says what its parts are: `1:30 min` would be a guess.
  const ofMinutes = /^m/i.test(unit?.[1] ?? '');
  const taken = unit && read && !(ofMinutes && !read.bare) ? unit : null;
  if (!read || (glued && !taken)) {
    const whole = token + (glued && !taken ? glued[0] : (taken?.[0] ?? ''));
    return {
      at,
      message: `${shorten(whole)} is not a time: ${whatIsMeant(token, unit ? unit[1]! : (glued?.[0] ?? ''))}`,
    };
  }
  const end = behind + (taken?.[0].length ?? 0);
  return ofMinutes && taken ? { ms: read.ms * 60, end, bare: false } : { ms: read.ms, end, bare: read.bare };
}

/** Whether a number, or a colon and a digit, is at an index. */
export function startsTime(text: string, at: number): boolean {
  return tokenAt(text, at) !== '';
}

/** The digits, colons and points at an index, or '' if no number begins there. */
export function tokenAt(text: string, at: number): string {
  return match(TOKEN, text, at)?.[0] ?? '';
}

/** Whether a unit of time stands at an index (white space before it allowed): `s`, `seconds`, `min` and the like. */
export function hasTimeUnit(text: string, at: number): boolean {
  return match(UNIT, text, at) !== null;
}

/** The time in minute and second marks at an index; null where none stands there. */
export function primedAt(text: string, at: number): ReadTime | null {
  const seconds = match(PRIMED_SECONDS, text, at);
  const found = seconds ?? match(PRIMED_MINUTES, text, at);
  if (!found) return null;
  const end = at + found[0].length;
  // A letter or digit behind it belongs to it: `50's` is a word.
  if (/[\p{L}\p{N}]/u.test(text.charAt(end))) return null;
  if (seconds) {
    const ms = Number(found[1]) * SECOND + Number(found[2] ?? 0) * 100;
    return ms >= SECOND && ms <= 99 * SECOND ? { ms, end, bare: true } : null;
  }
  const [, minutes, rest, tenths = '0'] = found;
  const ms = Number(minutes) * MINUTE + Number(rest ?? 0) * SECOND + Number(tenths) * 100;
  return rest === undefined && ms === 0 ? null : { ms, end, bare: false };
}

/** A piece of the text as a message shows it, at most 24 characters long. */
export function shorten(piece: string): string {
  const characters = Array.from(piece.trim());
  return characters.length > 24 ? `${characters.slice(0, 24).join('')}…` : characters.join('');
}

/** The match of a sticky pattern at an index. */
export function match(sticky: RegExp, text: string, at: number): RegExpExecArray | null {
  sticky.lastIndex = at;
  return sticky.exec(text);
}

function readToken(token: string): { readonly ms: Millis; readonly bare: boolean } | null {
  const colon = WITH_COLON.exec(token);
  if (colon) {
    const [, hours = '0', ofHour, minutes = '0', seconds, tenths = '0'] = colon;
    const whole = Number(hours) * HOUR + Number(ofHour ?? minutes) * MINUTE + Number(seconds) * SECOND;
    return { ms: whole + Number(tenths) * 100, bare: false };
  }
  const bare = BARE.exec(token);
  if (!bare) return null;
  const ms = Number(bare[1]) * SECOND + Number(bare[2] ?? 0) * 100;
  return ms >= SECOND && ms <= 99 * SECOND ? { ms, bare: true } : null;
}

/** What to write instead; `behind` is the unit, or what is glued to the number. */
function whatIsMeant(token: string, behind: string): string {
  if (/^:?o(?![a-np-z])/i.test(behind)) return 'write the digit 0 in place of the letter O';
  if (/^\d{3}$/.test(token) && /^min/i.test(behind)) return `write ${reading(Number(token) * MINUTE)}`;
  const pointed = /^(\d{1,2})\.([0-5]\d)$/.exec(token);
  if (pointed) {
    const seconds =
      pointed[2]!.endsWith('0') && pointed[1] !== '0' ? ` (or ${pointed[1]}.${pointed[2]![0]!} for seconds)` : '';
    return `write ${pointed[1]}:${pointed[2]}${seconds}`;
  }
  if (/^\d{3,4}$/.test(token)) {
    const other = /^0*(\d{1,2})([0-5]\d)$/.exec(token);
    return `write ${reading(Number(token) * SECOND)} if you mean seconds${other ? `, or ${other[1]}:${other[2]}` : ''}`;
  }
  if (/^\d{1,2}(?:\.\d)?$/.test(token) && readToken(token) === null)
    return 'write seconds without a colon only from 1 to 99';
  if (token.includes(':') && !readToken(token)) return 'write two digits below 60 after a colon, as in 1:05 or 1:02:30';
  if (/^,\d/.test(behind)) return `write tenths after a point, as in ${token}.5`;
  return 'write it as 1:30, 1:12.5 or 90, with a space after it';
}

function found(text: string, at: number): string {
  const next = shorten(text.slice(at).split(/\s/)[0]!);
  return next === '' ? '' : ` before ${next}`;
}
