/*
 * What a lane with nothing more to leave in the stretch that is going still swims in the session.
 */

import type { Rep, Stretch } from '../../plan/plan.ts';
import type { RunView } from '../view.ts';

export interface StillToSwim {
  readonly stretch: Stretch;
  /** The first of it. */
  readonly rep: Rep;
}

/** The next stretch that the lane at a place in lane order swims in, as cuts have left it; null where none is left. */
export function stillToSwim(
  { stretches, index }: Pick<RunView, 'stretches' | 'index'>,
  lane: number,
): StillToSwim | null {
  for (const stretch of stretches.slice(index + 1)) {
    const rep = stretch.lanes[lane]?.reps[0];
    if (rep) return { stretch, rep };
  }
  return null;
}
