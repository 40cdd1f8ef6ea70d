/*
 * Whether the run's time goes on as the page's own: then what moves on the wall is left to the browser. In a rehearsal the
 * time stands still or goes in steps, and a clock that is set right jumps.
 */

import type { Millis } from '../../../app/core/units.ts';

export interface Pace {
  /** How far the run's time is behind the page's own, in ms, the same while they go together; null where they part. */
  behind(t: Millis, own: number): number | null;
}

/** From one frame to the next: the run's time comes in whole ms, and is put right by little. In ms. */
const APART = 4;

/** What has gathered since it was said last; what moves would lie visibly beside its place. In ms. */
const GATHERED = 25;

export function createPace(): Pace {
  let before = Infinity;
  let said = Infinity;
  return {
    behind(t, own) {
      const now = own - t;
      const together = Math.abs(now - before) <= APART;
      before = now;
      if (!together) {
        said = Infinity;
        return null;
      }
      if (Math.abs(now - said) > GATHERED) said = now;
      return said;
    },
  };
}
