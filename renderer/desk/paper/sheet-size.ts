/*
 * How large the type of a sheet is: the largest with which it fits on one page, A4 or Letter, as far as that can be
 * worked out of its words. The smallest takes any number of lines, over more pages.
 */

import type { SheetLine, SheetPart } from './sheet-lines.ts';

/** In px: what is read from some metres, and 9 points. */
const LARGEST = 72;
const LEAST = 12;

/** In px: the width of A4 and the height of Letter within the browser's margins, less the caution at the foot. */
const PAGE = { width: 685, height: 880 };

/**
 * In em: an average character of the condensed typeface, a line, and the spaces of a line; a heading, with the space
 * above it.
 */
const CHARACTER = 0.38;
const LINE = 1.15;
const BETWEEN = 0.2;
const HEADING = 1.45;

/** In characters: what stands between words and a timing, and between two timings of a row. */
const APART = 5;

/** Of a heading beside the lines below it. */
const HEADING_TYPE = 0.85;

/** In px and in characters: a line of the facts below the title. */
const FACTS = { high: 23, most: 100 };

/** The type in px. `title`: its height, in px; `facts`: what stands below it. */
export function sheetSize(parts: readonly SheetPart[], title: number, facts: string): number {
  const room = PAGE.height - title - Math.ceil(facts.length / FACTS.most) * FACTS.high;
  let type = LARGEST;
  while (type > LEAST && heightOf(parts, type) * type > room) type--;
  return type;
}

/** `type` in px. How many of a line's timings stand below each other; the others stand beside them, as many as there is room for. */
export function timingRows(line: SheetLine, type: number): number {
  return layoutOf(line, type).timings;
}

/** In em. */
function heightOf(parts: readonly SheetPart[], type: number): number {
  return parts.reduce((sum, { name, when, lines }) => {
    const heading = Math.ceil(((name.length + when.length + 1) * HEADING_TYPE) / roomOf(type));
    const rows = lines.reduce((all, line) => all + layoutOf(line, type).rows * LINE + BETWEEN, 0);
    return sum + HEADING + (heading - 1) * HEADING_TYPE * LINE + rows;
  }, 0);
}

/** In characters, across the page. */
function roomOf(type: number): number {
  return PAGE.width / (CHARACTER * type);
}

interface LineLayout {
  /** Of text, all told. */
  readonly rows: number;
  readonly timings: number;
}

/** Timings stand beside the words where that takes no more rows than below them. */
function layoutOf({ words, timings, depth }: SheetLine, type: number): LineLayout {
  const room = roomOf(type) - depth * 3;
  const wrapped = Math.max(1, Math.ceil(words.length / room));
  if (timings.length === 0) return { rows: wrapped, timings: 0 };
  const widest = Math.max(...timings.map((timing) => timing.lanes.length + timing.words.length + APART));
  const within = (width: number): number => {
    const rows = Math.ceil(timings.length / Math.max(1, Math.floor(width / widest)));
    // Three in two columns would be read "1, 3, 2".
    return timings.length === 3 && rows === 2 ? 3 : rows;
  };
  const below = within(room);
  const beside = words.length + widest > room ? Infinity : within(room - words.length);
  if (beside <= wrapped + below) return { rows: beside, timings: beside };
  // Even one may be wider than the page.
  return { rows: wrapped + below * Math.ceil(widest / room), timings: below };
}
