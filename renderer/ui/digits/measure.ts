/*
 * Widths of words as the browser will draw them, from a canvas. Valid once the typeface is loaded.
 */

import type { Measure } from './fit-text.ts';

/** Large enough that rounding to a pixel does not matter, in px. */
const SIZE = 100;

/** Texts whose widths are remembered: what a wall says comes again and again. */
const MOST = 500;

/** weight: as in CSS, of the one typeface. */
export function createMeasure(weight: 500 | 600): Measure {
  const context = document.createElement('canvas').getContext('2d');
  const known = new Map<string, number>();
  return (text) => {
    if (!context) return text.length * 0.4; // Wider than the typeface's mean: words stay inside.
    const found = known.get(text);
    if (found !== undefined) return found;
    context.font = `${weight} ${SIZE}px 'Barlow Condensed', 'Arial Narrow', sans-serif`;
    const width = context.measureText(text).width / SIZE;
    if (known.size >= MOST) known.clear();
    known.set(text, width);
    return width;
  };
}
