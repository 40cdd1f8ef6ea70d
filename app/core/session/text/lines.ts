/*
 * Splits a text into lines and takes off comments, bullets and indents. What is left of a line is its text, without
 * spaces around it. Columns count code points from 1; a tab counts as 4, a byte-order mark as none.
 */

import type { Fault } from '../../result.ts';

export interface Line {
  /** From 1. */
  readonly number: number;
  /** The line as in the file, without its line end. */
  readonly raw: string;
  /** How many columns of white space come before the text, or before its bullet. */
  readonly indent: number;
  /** Where the text begins in `raw`. */
  readonly start: number;
  /** Never empty; without comment and bullet. */
  readonly text: string;
}

/** Large enough for any session, and small enough to be read at once on a phone. */
const MOST_BYTES = 256 * 1024;
/** In a line. */
export const MOST_CHARACTERS = 500;
const TAB_COLUMNS = 4;

/** Control characters except the tab, halves of surrogate pairs, and what decoders put for bytes that are not UTF-8. */
const FOREIGN = /[^\P{Cc}\t]|\p{Cs}|\ufffd/u;
const BULLET = /^(?:[-\u2010-\u2015\u2212•]|(?:\p{L}|\d+)\))\s*/u;

/**
 * The lines that are not empty, and faults of characters and lengths. A line with a fault is included as far as it
 * can be read, because its heading or indent matters to the lines after it.
 */
export function readLines(text: string): { readonly lines: readonly Line[]; readonly faults: readonly Fault[] } {
  if (longerThan(text, MOST_BYTES)) {
    const message = 'the file is larger than 256 KiB: no session is that long, so check that this is the right file';
    return { lines: [], faults: [{ line: 1, column: 1, message }] };
  }
  const lines: Line[] = [];
  const faults: Fault[] = [];
  const pieces = (text.charCodeAt(0) === 0xfeff ? text.slice(1) : text).split('\n');
  // One check of the whole text saves checking every line of most texts.
  const clean = !FOREIGN.test(text.replace(/\r?\n/g, ' '));
  pieces.forEach((piece, index) => {
    const ended = index < pieces.length - 1 && piece.endsWith('\r');
    const raw = ended ? piece.slice(0, -1) : piece;
    const fault = characterFault(raw, index + 1, clean);
    if (fault) faults.push(fault);
    const line = lineAt(raw, index + 1);
    if (line) lines.push(line);
  });
  return { lines, faults };
}

/** The lines of a text without their line ends and without a byte-order mark. No line follows the last line feed. */
export function textLines(text: string): readonly string[] {
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/);
  if (lines[lines.length - 1] === '') lines.pop();
  return lines;
}

/** A line without its comment and the blanks at its end; its indent stays. */
export function contentOf(raw: string): string {
  return raw.slice(0, commentStart(raw)).replace(/\s+$/, '');
}

/** The first line (from 1) that differs; null if all are the same. */
export function firstChangedLine(before: readonly string[], after: readonly string[]): number | null {
  const longer = Math.max(before.length, after.length);
  for (let index = 0; index < longer; index++) if (before[index] !== after[index]) return index + 1;
  return null;
}

/** Where a line (from 1) begins in a text; the first begins after a byte-order mark. */
export function lineStart(text: string, line: number): number {
  let start = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  for (let before = 1; before < line; before++) start = text.indexOf('\n', start) + 1;
  return start;
}

/** The column of an index into a line of the file. */
export function columnAt(raw: string, index: number): number {
  let column = 1;
  for (const character of raw.slice(0, index)) column += character === '\t' ? TAB_COLUMNS : 1;
  return column;
}

/** Runs of white space folded to one space, none at the ends. */
export function foldSpaces(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

function longerThan(text: string, bytes: number): boolean {
  if (text.length > bytes) return true;
  if (text.length * 3 <= bytes) return false;
  let size = 0;
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    // Each half of a surrogate pair stands for two of its four bytes.
    if (unit < 0x80) size += 1;
    else if (unit < 0x800 || (unit >= 0xd800 && unit <= 0xdfff)) size += 2;
    else size += 3;
  }
  return size > bytes;
}

function characterFault(raw: string, line: number, clean: boolean): Fault | null {
  if (raw.length > MOST_CHARACTERS) {
    const characters = Array.from(raw);
    if (characters.length > MOST_CHARACTERS) {
      const column = columnAt(raw, characters.slice(0, MOST_CHARACTERS).join('').length);
      const message = `this line has ${characters.length} characters: at most ${MOST_CHARACTERS} are read, so make it shorter`;
      return { line, column, message };
    }
  }
  const at = clean ? -1 : raw.search(FOREIGN);
  return at < 0 ? null : { line, column: columnAt(raw, at), message: nameOf(raw.codePointAt(at)!) };
}

function nameOf(code: number): string {
  if (code === 0x0d) return 'a carriage return inside a line: end the line with a line feed, or with both';
  if (code >= 0xd800) return 'a character that is not UTF-8: save the file as UTF-8';
  return `a control character (code ${code}): delete it; a session has only letters, numbers, signs, spaces and tabs`;
}

/** A line of a file, without its line end; null for one that says nothing. */
export function lineAt(full: string, number: number): Line | null {
  // A longer line has been reported as a fault already: cutting it keeps the work small.
  const raw = full.slice(0, 2 * MOST_CHARACTERS);
  const end = commentStart(raw);
  const trimmed = raw.slice(0, end).trim();
  const margin = raw.search(/\S/);
  const bullet = BULLET.exec(trimmed)?.[0].length ?? 0;
  const text = trimmed.slice(bullet);
  if (text === '') return null;
  return { number, raw, indent: columnAt(raw, margin) - 1, start: margin + bullet, text };
}

/** Where a comment begins, or the line's end. A comment's `#` is first in the line, or has white space or a line end around it. */
export function commentStart(raw: string): number {
  for (let at = raw.indexOf('#'); at >= 0; at = raw.indexOf('#', at + 1)) {
    if (/^\s*$/.test(raw.slice(0, at))) return at;
    const before = /\s/.test(raw.charAt(at - 1));
    if (before && (at + 1 === raw.length || /\s/.test(raw.charAt(at + 1)))) return at;
  }
  return raw.length;
}

/** A line of a text (from 1) as the coach wrote it, without its indent and comment. */
export function writtenLine(text: string, line: number): string {
  return contentOf(textLines(text)[line - 1] ?? '').trim();
}
