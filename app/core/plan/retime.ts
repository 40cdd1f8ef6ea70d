/*
 * A lane's offsets worked out again from its intervals, by the plan's own cursor: after a cut or a
 * change of interval the rest of a stretch lies where it would have been planned.
 */

import type { LaneReps, Rep } from './plan.ts';
import type { Millis } from '../units.ts';

/**
 * The same reps with the first at 0 and each later one where the cursor stands; length is where it ends,
 * no tail. `intervalOf` may give a rep another interval than it has.
 */
export function retime(reps: readonly Rep[], intervalOf = (rep: Rep): Millis => rep.interval): LaneReps {
  let cursor: Millis = 0;
  const moved = reps.map((rep) => {
    const offset = cursor;
    const interval = intervalOf(rep);
    cursor += interval + rep.leftover;
    return rep.offset === offset && rep.interval === interval ? rep : withTimes(rep, offset, interval);
  });
  return { reps: moved, length: cursor };
}

/** Where the cursor of a lane ends that swims these reps, in ms from the first leave; 0 without reps. */
export function laneLength(reps: readonly Rep[]): Millis {
  return reps.reduce((length, rep) => length + rep.interval + rep.leftover, 0);
}

/** The same rep at another offset and with another interval. Field by field: thousands change with one command. */
export function withTimes(rep: Rep, offset: Millis, interval: Millis): Rep {
  const { set, words, estimated, rep: number, of, distance, leftover, target, expected } = rep;
  return { set, words, estimated, rep: number, of, distance, offset, interval, leftover, target, expected };
}
