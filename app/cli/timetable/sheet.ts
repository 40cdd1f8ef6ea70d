/*
 * The layout of the text timetable: how wide it is, where the columns of the lanes are, and how text and leaves are
 * set into them.
 */

import { reading } from '../../core/words/time/reading.ts';
import type { Passage } from './set-label.ts';

/** Lanes side by side: from index `from` up to but not including `to`, in lane order. */
export interface Sheet {
  readonly from: number;
  readonly to: number;
  /** The width of the page, in characters. */
  readonly width: number;
  /** The width of one lane's column, with the space before the next. */
  readonly column: number;
}

/** The width for up to four lanes, and the largest width. */
const NARROW = 80;
const WIDE = 132;

/** Room for two leaves of an hour side by side, or for "base 1:30 assumed". */
const LEAST_COLUMN = 18;

/** The margin left of the lanes' columns. */
const MARGIN = '    ';

/** All lanes on one sheet if they fit; if not, on sheets with nearly the same number of lanes each. */
export function laneGroups(lanes: number): readonly Sheet[] {
  const most = Math.floor((WIDE - MARGIN.length) / LEAST_COLUMN);
  const sheets = Math.ceil(lanes / most);
  const each = Math.ceil(lanes / sheets);
  const needed = MARGIN.length + each * LEAST_COLUMN;
  const width = Math.min(WIDE, Math.max(NARROW, needed));
  const column = Math.floor((width - MARGIN.length) / each);
  return Array.from({ length: sheets }, (_, index) => {
    return { from: index * each, to: Math.min(lanes, (index + 1) * each), width, column };
  });
}

/** A row with one text for each lane, at the left of its column. */
export function columns(cells: readonly string[], sheet: Sheet): string {
  return MARGIN + cells.map((cell) => cell.padEnd(sheet.column)).join('');
}

/** The leaves of one passage, each lane's in its own column, row under row. */
export function leaveRows(passage: Passage, sheet: Sheet): readonly string[] {
  const lanes = passage.slice(sheet.from, sheet.to).map((reps) => reps.map(({ offset }) => reading(offset)));
  const widest = Math.max(...lanes.map((leaves) => leaves.reduce((most, leave) => Math.max(most, leave.length), 0)));
  const perRow = Math.max(1, Math.floor(sheet.column / (widest + 2)));
  const rows = Math.ceil(Math.max(...lanes.map((leaves) => leaves.length)) / perRow);
  return Array.from({ length: rows }, (_, row) => {
    const cells = lanes.map((leaves) => {
      if (leaves.length === 0 && row === 0) return '–'.padStart(widest);
      const part = leaves.slice(row * perRow, (row + 1) * perRow);
      return part.map((leave) => leave.padStart(widest)).join('  ');
    });
    return columns(cells, sheet);
  });
}

/** A line with text at both ends and `fill` between them. A left text that is too long continues on more lines. */
export function ends(left: string, right: string, width: number, fill = ' '): readonly string[] {
  const [first, ...more] = wrapped(left, width - right.length - 3, '', '  ');
  const end = right === '' ? '' : ` ${right}`;
  return [`${first!} `.padEnd(width - end.length, fill) + end, ...more];
}

/** Wraps words into lines of at most `width` (unless one word is longer). All lines but the first are indented by `deeper`. */
export function wrapped(text: string, width: number, indent: string, deeper: string): readonly string[] {
  const lines: string[] = [];
  let line = indent;
  let started = false;
  for (const word of text.split(' ')) {
    if (started && line.length + 1 + word.length > width) {
      lines.push(line);
      line = deeper + word;
    } else line += started ? ` ${word}` : word;
    started = true;
  }
  return [...lines, line];
}
