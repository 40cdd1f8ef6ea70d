/*
 * The water in a strip: its full width stands for a minute, and it drains towards the edge that swimmers push off from.
 */

import { MINUTE, type Millis } from '../../../app/core/units.ts';
import { createFlow } from '../board/flow.ts';
import { wantsLessMotion } from '../board/motion.ts';
import { attributeWriter } from '../board/writers.ts';
import type { PushOff } from '../screen/wall-choice.ts';

/** What the full width stands for, in all lanes alike. */
const FULL: Millis = MINUTE;

/**
 * Places of its edge in the full width: in a narrow strip no finer than a pixel, because each costs the screen a drawing.
 * Both in whole places a tenth of a second, so that the edges of all lanes move on the same frames; half a place late, so
 * that those are not the frames in which the digits change.
 */
const PLACES = 1200;
const NARROW_PLACES = 600;

/** One a second, for those who want less motion. */
const FEW_PLACES = 60;

export interface Water {
  /** When it has drained away; null for none. */
  fill(drainedAt: Millis | null): void;
  /** Puts it where it stands at t. */
  stand(t: Millis): void;
  /** Lets it drain by itself. behind: how far the run's time is behind the page's own, in ms. */
  run(behind: number): void;
}

/** How much of the width is left at a time, 0 to 1. */
export function waterLeft(drainedAt: Millis | null, t: Millis): number {
  return drainedAt === null ? 0 : Math.max(0, Math.min(1, (drainedAt - t) / FULL));
}

/** width: of the strip, in px. It is moved, never made narrower, because that would lay the strip out anew. */
export function createWater(element: HTMLElement, from: PushOff, width: number): Water {
  const way = from === 'left' ? -width : width;
  // Kept in the page: to take it out and put it back costs a frame more than all else in a leave.
  const dry = attributeWriter(element, 'data-dry');
  const places = width < PLACES ? NARROW_PLACES : PLACES;
  const lag = wantsLessMotion() ? 0 : FULL / places / 2;
  const flow = createFlow(element, {
    takes: FULL,
    places,
    fewPlaces: FEW_PLACES,
    again: false,
    at: (share) => `translateX(${share * way}px)`,
  });
  let drainedAt: Millis | null = null;
  return {
    fill(at) {
      drainedAt = at;
      dry(at === null ? 'yes' : '');
    },
    stand(t) {
      if (drainedAt === null) return;
      const passed = (1 - waterLeft(drainedAt, t)) * FULL;
      flow.stand(passed < FULL ? passed - lag : passed);
    },
    run(behind) {
      if (drainedAt !== null) flow.run(drainedAt - FULL + lag + behind);
    },
  };
}
