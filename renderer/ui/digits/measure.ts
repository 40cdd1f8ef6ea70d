/*
 * Widths of words as the browser will draw them, from a canvas. Valid once the typeface is loaded.
 */

import type { Measure } from './fit-text.ts';

/** Large enough that rounding to a pixel does not matter, in px. */
const SIZE = 100;

/** weight: as in CSS, of the one typeface. */
export function createMeasure(weight: 500 | 600): Measure {
  const context = document.createElement('canvas').getContext('2d');
  return (text) => {
    if (!context) return text.length * 0.4; // Wider than the typeface's mean: words stay inside.
    context.font = `${weight} ${SIZE}px 'Barlow Condensed', 'Arial Narrow', sans-serif`;
    return context.measureText(text).width / SIZE;
  };
}
