/*
 * How large the text on this screen is drawn: of each kind the smallest that is seen now, because words that are long
 * are set smaller.
 */

import { CAP } from '../../ui/digits/digits.ts';
import { KINDS, type Heights, type Kind } from './sight.ts';

/** Below the board; the dial's numerals are measured by the face. */
const PLACES: { readonly [kind in Exclude<Kind, 'clock'>]: string } = {
  leave: "[data-place='leave']",
  seconds: "[data-place='seconds']",
  number: '.strip-number',
  rep: "[data-place='rep']",
  interval: "[data-place='interval'], [data-place='target']",
  words: "[data-place='words']",
  head: "[data-place='set'], [data-place='title'], [data-place='callout-title']",
};

/** clock: the height of what the clock is read by. */
export function drawnHeights(board: Element, clock: number): Heights {
  const heights: { [kind in Kind]?: number } = { clock };
  for (const kind of KINDS) {
    if (kind === 'clock') continue;
    const seen = Array.from(board.querySelectorAll(PLACES[kind])).filter(isSeen);
    if (seen.length > 0) heights[kind] = Math.min(...seen.map(capitalsOf));
  }
  return heights;
}

function isSeen(element: Element): boolean {
  return element.textContent !== '' && element.getClientRects().length > 0;
}

function capitalsOf(element: Element): number {
  return parseFloat(getComputedStyle(element).fontSize) * CAP;
}
