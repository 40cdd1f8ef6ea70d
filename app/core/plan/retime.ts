/*
 * Works a lane's offsets out again from its intervals, in the same way as the plan. So after a cut or a change of
 * interval, the rest of a stretch is where the plan would have put it.
 */

import type { LaneReps, Rep } from './plan.ts';
import type { Millis } from '../units.ts';

/**
 * The same reps with the first at offset 0 and each later one after the intervals before it. The length has no tail.
 * `intervalOf` can give a rep a new interval.
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

/** How long a lane takes for these reps, in ms from the first leave and without the tail; 0 without reps. */
export function laneLength(reps: readonly Rep[]): Millis {
  return reps.reduce((length, rep) => length + rep.interval + rep.leftover, 0);
}

/** The rep with a new offset and interval. Copied field by field, for speed: one command can change thousands. */
export function withTimes(rep: Rep, offset: Millis, interval: Millis): Rep {
  const { set, words, estimated, rep: number, of, distance, leftover, target, expected } = rep;
  return { set, words, estimated, rep: number, of, distance, offset, interval, leftover, target, expected };
}
