/*
 * Rows for a spreadsheet (RFC 4180), and how the values in them are written: times as seconds, so that
 * they can be reckoned with, and words so that no spreadsheet takes them for a formula.
 */

import type { Millis } from './units.ts';

/** Every row ends in CR LF; a cell with a comma, a quote or a line end stands in quotes. */
export function csvText(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
}

/** Spreadsheets run what begins with = + - or @, full-width forms included: an apostrophe says "this is text". */
export function wordsCell(words: string): string {
  return /^\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]/.test(words) ? `'${words}` : words;
}

/** `90`, `72.5`. */
export function secondsCell(time: Millis): string {
  const rest = time % 1000;
  const whole = `${(time - rest) / 1000}`;
  return rest === 0 ? whole : `${whole}.${`${rest}`.padStart(3, '0').replace(/0+$/, '')}`;
}

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replace(/"/g, '""')}"` : cell;
}
