/*
 * The water in a strip: its full width stands for a minute, and it drains towards the edge that swimmers push off from.
 */

import { MINUTE, type Millis } from '../../../app/core/units.ts';
import { wantsLessMotion } from '../motion.ts';
import { hiddenWriter } from '../writers.ts';
import type { PushOff } from '../screen/wall-choice.ts';

/** What the full width stands for, in all lanes alike. */
const FULL: Millis = MINUTE;

/** How much of the width is left at a time, 0 to 1. */
export function waterLeft(drainedAt: Millis | null, t: Millis): number {
  return drainedAt === null ? 0 : Math.max(0, Math.min(1, (drainedAt - t) / FULL));
}

/** Places of its edge in the full width: finer than anyone sees, and few enough to draw. */
const PLACES = 1200;

/** One a second, for those who want less motion. */
const FEW_PLACES = 60;

/** share: 0 to 1 of the strip's width. It is moved, never made narrower, because that would lay the strip out anew. */
export function createWater(element: HTMLElement, from: PushOff): (share: number) => void {
  const side = from === 'left' ? 1 : -1;
  const places = wantsLessMotion() ? FEW_PLACES : PLACES;
  const hide = hiddenWriter(element);
  let shown = -1;
  return (share) => {
    const place = Math.ceil(share * places);
    if (place === shown) return;
    shown = place;
    hide(place === 0);
    element.style.transform = `translateX(${(place / places - 1) * 100 * side}%)`;
  };
}
