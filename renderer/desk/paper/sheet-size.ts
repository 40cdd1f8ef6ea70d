/*
 * How large the type of a sheet is: the largest with which it fits on one page, A4 or Letter, as far as that can be
 * worked out of its words. The smallest takes any number of lines, over more pages.
 */

import type { SheetLine, SheetPart } from './sheet-lines.ts';

/** By their names in the style sheet, with their sizes in px. 12 px is 9 points. */
const SIZES = [
  { size: 'largest', type: 36 },
  { size: 'large', type: 28 },
  { size: 'middle', type: 22 },
  { size: 'small', type: 18 },
  { size: 'smaller', type: 16 },
  { size: 'smallest', type: 14 },
  { size: 'least', type: 12 },
] as const;

export type SheetSize = (typeof SIZES)[number]['size'];

/** In px: the width of A4 and the height of Letter within the browser's margins, less the caution at the foot. */
const PAGE = { width: 710, height: 880 };

/** In em: an average character of the condensed typeface, a line, and the spaces of a line and above a heading. */
const CHARACTER = 0.4;
const LINE = 1.25;
const BETWEEN = 0.24;
const HEADING = 1.85;

/** head: the height of what stands above the parts, in px. */
export function sheetSize(parts: readonly SheetPart[], head: number): SheetSize {
  const fits = SIZES.find(({ type }) => heightOf(parts, PAGE.width / (CHARACTER * type)) * type <= PAGE.height - head);
  return (fits ?? SIZES[SIZES.length - 1]!).size;
}

/** In em, with so many characters a line. */
function heightOf(parts: readonly SheetPart[], most: number): number {
  return parts.reduce(
    (sum, { lines }) => lines.reduce((all, line) => all + rowsOf(line, most) * LINE + BETWEEN, sum + HEADING),
    0,
  );
}

/** Timings stand beside the words where there is room, else below them; those of lanes one below the other. */
function rowsOf({ words, timings, depth }: SheetLine, most: number): number {
  const room = most - depth * 3;
  const own = timings.map((timing) => timing.lanes.length + timing.words.length + 5);
  const widest = Math.max(0, ...own);
  const below = own.reduce((rows, length) => rows + Math.max(1, Math.ceil(length / room)), 0);
  const wrapped = Math.max(1, Math.ceil(words.length / room));
  return words.length + widest <= room ? Math.max(wrapped, below) : wrapped + below;
}
