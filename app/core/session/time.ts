/*
 * TIME as coaches write it: `1:30`, `:45`, `1:02:30`, `1:12.5`, `90`, `15 s`, `10 min`. What is
 * nearly a time (`1.30`, `130`) is refused with what may have been meant, never guessed.
 */

import type { Millis } from '../units.ts';
import { HOUR, MINUTE, SECOND } from '../units.ts';
import { reading } from '../words/reading.ts';
import type { Flaw } from './flaw.ts';

export interface ReadTime {
  readonly ms: Millis;
  /** Index behind it, its unit included. */
  readonly end: number;
  /** A number of seconds without a colon (and not of minutes). */
  readonly bare: boolean;
}

/** Digits, colons and points as they stand together; a point or colon at their end is punctuation. */
const TOKEN = /:?\d(?:[\d:.]*\d)?/y;
const WITH_COLON = /^(?:(\d):([0-5]\d)|(\d{0,2})):([0-5]\d)(?:\.(\d))?$/;
const BARE = /^(\d{1,2})(?:\.(\d))?$/;
const UNIT = /\s*(sec|s|min)(?![\p{L}\p{N}-])/iuy;
/** What cannot stand right behind a time: it would be part of it, and is not. */
const GLUED = /(?:[\p{L}\p{N}:]|[,.\u2010-\u2015\u2212-]\d)[^\s/@]*/uy;

/** The time at an index; a flaw where there is none or something like one. 0:00 is a time. */
export function timeAt(text: string, at: number): ReadTime | Flaw {
  const token = tokenAt(text, at);
  if (token === '') return { at, message: `a time is missing${found(text, at)}: write it as 1:30, or 90 for seconds` };
  const read = readToken(token);
  const behind = at + token.length;
  const glued = match(GLUED, text, behind);
  const unit = match(UNIT, text, behind);
  // With a colon the time already says what its parts are: `1:30 min` would be a guess.
  const ofMinutes = unit?.[1]!.toLowerCase() === 'min';
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

/** Whether a number, or a colon and a digit, stands at an index. */
export function startsTime(text: string, at: number): boolean {
  return tokenAt(text, at) !== '';
}

/** The digits, colons and points at an index, or '' where no number begins there. */
export function tokenAt(text: string, at: number): string {
  return match(TOKEN, text, at)?.[0] ?? '';
}

/** Whether `s`, `sec` or `min` stands at an index (white space before it allowed). */
export function hasTimeUnit(text: string, at: number): boolean {
  return match(UNIT, text, at) !== null;
}

/** A piece of the text as a message shows it. */
export function shorten(piece: string): string {
  const characters = Array.from(piece.trim());
  return characters.length > 24 ? `${characters.slice(0, 24).join('')}…` : characters.join('');
}

/** A sticky match at an index. */
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

/** What would be right; `behind` is the unit, or what is glued to the number. */
function whatIsMeant(token: string, behind: string): string {
  if (/^\d{3}$/.test(token) && /^min$/i.test(behind)) return `write ${reading(Number(token) * MINUTE)}`;
  const pointed = /^(\d{1,2})\.([0-5]\d)$/.exec(token);
  if (pointed) {
    const seconds =
      pointed[2]!.endsWith('0') && pointed[1] !== '0' ? ` (or ${pointed[1]}.${pointed[2]![0]!} for seconds)` : '';
    return `write ${pointed[1]}:${pointed[2]}${seconds}`;
  }
  if (/^\d{3,4}$/.test(token)) {
    const other = /^0*(\d{1,2})([0-5]\d)$/.exec(token);
    return `write ${reading(Number(token) * SECOND)} for so many seconds${other ? `, or ${other[1]}:${other[2]}` : ''}`;
  }
  if (/^\d{1,2}(?:\.\d)?$/.test(token) && readToken(token) === null)
    return 'a bare number of seconds goes from 1 to 99';
  if (token.includes(':') && !readToken(token)) return 'two digits below 60 stand after a colon, as in 1:05 or 1:02:30';
  if (/^,\d/.test(behind)) return `tenths stand after a point, as in ${token}.5`;
  return 'write it as 1:30, 1:12.5 or 90, with a space behind it';
}

function found(text: string, at: number): string {
  const next = shorten(text.slice(at).trim().split(/\s/)[0] ?? '');
  return next === '' ? '' : ` before ${next}`;
}
