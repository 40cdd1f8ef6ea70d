/*
 * What moves evenly on the wall, the water and the hand of a dial. Where the run's time goes on as the page's own does the
 * browser moves it by itself, without a frame of ours; where the time stands, jumps or runs faster, in a rehearsal for
 * one, it is put where it stands.
 */

import type { Millis } from '../../../app/core/units.ts';
import { wantsLessMotion } from './motion.ts';

export interface Way {
  /** From one end of it to the other. */
  readonly takes: Millis;
  /** Places on it where the thing is drawn; fewer for those who want less motion. */
  readonly places: number;
  readonly fewPlaces: number;
  /** Whether it begins again at its end; else the thing stays there. */
  readonly again: boolean;
  /** As a `transform`, without shares of the box's size: the browser would have to lay those out. At 0 and 1: its ends. */
  at(share: number): string;
}

export interface Flow {
  /** Puts it where it stands so long after its beginning. */
  stand(passed: Millis): void;
  /** Lets it go on by itself, where `canRun`. began: on the page's clock, in ms. */
  run(began: number): void;
}

/** Whether the browser moves things by itself. */
export function canRun(element: HTMLElement): boolean {
  return 'animate' in element;
}

export function createFlow(element: HTMLElement, way: Way): Flow {
  const places = wantsLessMotion() ? way.fewPlaces : way.places;
  let running: Animation | null = null;
  let begun = 0;
  let shown = '';

  function stand(passed: Millis): void {
    running?.cancel();
    running = null;
    const share = passed / way.takes;
    const within = way.again ? share - Math.floor(share) : Math.max(0, Math.min(1, share));
    const place = way.at(Math.floor(within * places) / places);
    if (place !== shown) element.style.transform = shown = place;
  }

  return {
    stand,
    run(began) {
      if (running && began === begun) return;
      running = running ?? element.animate([{ transform: way.at(0) }, { transform: way.at(1) }], timingOf(way, places));
      // Without it the browser would count from its next frame.
      running.startTime = begun = began;
    },
  };
}

function timingOf({ takes, again }: Way, places: number): KeyframeAnimationOptions {
  const evenly = { duration: takes, easing: `steps(${places})` };
  return again ? { ...evenly, iterations: Infinity } : { ...evenly, fill: 'both' };
}
