/*
 * Rows for a spreadsheet (RFC 4180) and the values in them. Times are in seconds, so that a spreadsheet can calculate
 * with them; words are written so that no spreadsheet takes them for a formula.
 */

import type { Millis } from './units.ts';

/**
 * Every row ends in CR LF. A cell with a comma, a quote or a line end is quoted. So is one with a semicolon or a tab,
 * because spreadsheets split there in countries where the comma is the decimal sign.
 */
export function csvText(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
}

/**
 * Words that no spreadsheet runs as a formula. A session may come from anybody, and a cell that begins with = + - or @
 * (full-width forms too) is a formula, and one that begins with a tab or a line end may become one: an apostrophe in
 * front makes it text. The apostrophe is also put after a
 * separator within the words, because a program that splits rows at another sign ignores quotes in the middle of a
 * row. Words are for reading, so a visible apostrophe does little harm; numbers never get one.
 */
export function wordsCell(words: string): string {
  return words.replace(FORMULA, "$1'$2");
}

const FORMULA = /(^|[;\t\r\n])([\s"]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20])|^()(?=[\t\r\n])/g;

/** `90`, `72.5`. */
export function secondsCell(time: Millis): string {
  const rest = time % 1000;
  const whole = `${(time - rest) / 1000}`;
  return rest === 0 ? whole : `${whole}.${`${rest}`.padStart(3, '0').replace(/0+$/, '')}`;
}

function quoted(cell: string): string {
  return /[",;\t\r\n]/.test(cell) ? `"${cell.replace(/"/g, '""')}"` : cell;
}
