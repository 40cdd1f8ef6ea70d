/*
 * The paper under the text timetable: how wide it is, where its lanes' columns stand, and how text
 * and leave times are set into them.
 */

import { reading } from '../core/words/reading.ts';
import type { Passage } from './set-label.ts';

/** A run of lanes side by side: from the lane at `from` up to, not including, `to`, in lane order. */
export interface Sheet {
  readonly from: number;
  readonly to: number;
  /** Of the page, in characters. */
  readonly width: number;
  /** Of one lane, with the space before the next. */
  readonly column: number;
}

/** The width for up to four lanes, and the widest there is. */
const NARROW = 80;
const WIDE = 132;

/** Room for two leaves of an hour side by side, or for "base 1:30 assumed". */
const LEAST_COLUMN = 18;

/** What stands left of the lanes' columns. */
const MARGIN = '    ';

/** All lanes in one sheet where they fit, else in sheets of nearly the same number of lanes. */
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

/** One text a lane, at the top of its column. */
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

/** Text at both ends of a line, filled up between; a left text that is too long goes on below. */
export function ends(left: string, right: string, width: number, fill = ' '): readonly string[] {
  const [first, ...more] = wrapped(left, width - right.length - 3, '', '  ');
  const end = right === '' ? '' : ` ${right}`;
  return [`${first!} `.padEnd(width - end.length, fill) + end, ...more];
}

/** Words broken into lines no longer than `width` where words allow; all but the first are indented deeper. */
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
