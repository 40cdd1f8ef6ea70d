/*
 * A lane's offsets worked out again from its intervals, by the plan's own cursor: after a cut or a
 * change of interval the rest of a stretch lies where it would have been planned.
 */

import type { LaneReps, Rep } from './plan.ts';
import type { Millis } from '../units.ts';

/** The same reps with the first at 0 and each later one where the cursor stands; length is where it ends, no tail. */
export function retime(reps: readonly Rep[]): LaneReps {
  let cursor: Millis = 0;
  const moved = reps.map((rep) => {
    const offset = cursor;
    cursor += rep.interval + rep.leftover;
    return rep.offset === offset ? rep : { ...rep, offset };
  });
  return { reps: moved, length: cursor };
}

/** Where the cursor of a lane ends that swims these reps, in ms from the first leave; 0 without reps. */
export function laneLength(reps: readonly Rep[]): Millis {
  return reps.reduce((length, rep) => length + rep.interval + rep.leftover, 0);
}
