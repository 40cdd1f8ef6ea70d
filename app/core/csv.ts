/*
 * Rows for a spreadsheet (RFC 4180), and how the values in them are written: times as seconds, so that
 * they can be reckoned with, and words so that no spreadsheet takes them for a formula.
 */

import type { Millis } from './units.ts';

/**
 * Every row ends in CR LF; a cell with a comma, a quote or a line end stands in quotes, and so does one with a
 * semicolon or a tab, at which spreadsheets split where a comma is the decimal sign.
 */
export function csvText(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
}

/**
 * Words that no spreadsheet runs. A session may come from anybody, and what begins with = + - or @ (full-width
 * forms included) is a formula there: an apostrophe in front says "this is text". It stands behind a separator
 * within the words too, because quotes in the middle of a row mean nothing to a program that splits at another
 * one than the comma. Words are for reading, so a visible apostrophe costs little; figures never get one.
 */
export function wordsCell(words: string): string {
  return words.replace(FORMULA, "$1'$2");
}

const FORMULA = /(^|[;\t\r\n])([\s"]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20])/g;

/** `90`, `72.5`. */
export function secondsCell(time: Millis): string {
  const rest = time % 1000;
  const whole = `${(time - rest) / 1000}`;
  return rest === 0 ? whole : `${whole}.${`${rest}`.padStart(3, '0').replace(/0+$/, '')}`;
}

function quoted(cell: string): string {
  return /[",;\t\r\n]/.test(cell) ? `"${cell.replace(/"/g, '""')}"` : cell;
}
