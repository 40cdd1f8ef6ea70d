/*
 * When each stretch is planned to begin and how long it lasts, counted from the start of the first. The live run
 * projects the rest of the hour by the same rules.
 */

import type { Millis } from '../units.ts';
import { beginsPart, waitsFor, type Plan, type Stretch, type Waits } from './plan.ts';

/** What a lane's tail depends on. */
export interface Tail {
  readonly swimmers: number;
  readonly gap: Millis;
}

export interface PlannedTime {
  /** ms from the start of the first stretch. */
  readonly start: Millis;
  /** ms, with the tails of its lanes. */
  readonly duration: Millis;
  readonly waits: Waits;
}

/** The planned times of the stretches of a plan, one for each. */
export function plannedTimes(plan: Plan): readonly PlannedTime[] {
  const { between, startOn, lanes } = plan.session;
  let end: Millis = 0;
  return plan.stretches.map((stretch, index) => {
    const before = plan.stretches[index - 1];
    const start = before ? plannedStart(stretch, before, end, between.time, (time) => alignTo(startOn, time)) : 0;
    const duration = stretchLength(stretch, lanes);
    end = start + duration;
    return { start, duration, waits: waitsFor(stretch, before, between.auto) };
  });
}

/** The end of the last stretch; 0 if there is none. */
export function planDuration(times: readonly PlannedTime[]): Millis {
  const last = times[times.length - 1];
  return last ? last.start + last.duration : 0;
}

/** The length of the longest lane with its tail; for a talk or break, its time. lanes: in lane order, null for a lane that is out. */
export function stretchLength(stretch: Stretch, lanes: readonly (Tail | null)[]): Millis {
  if (stretch.kind !== 'swim') return stretch.time;
  return stretch.lanes.reduce((longest, { reps, length }, index) => {
    const lane = lanes[index];
    if (!lane) return longest;
    return Math.max(longest, reps.length > 0 ? length + tailOf(lane) : length);
  }, 0);
}

/** How long after the lead the last swimmer of a lane leaves. */
export function tailOf(lane: Tail): Millis {
  return (lane.swimmers - 1) * lane.gap;
}

/** The least multiple of `startOn` that is at or after a time (0 or more). */
export function alignTo(startOn: Millis, time: Millis): Millis {
  return Math.ceil(time / startOn) * startOn;
}

/**
 * When a stretch is planned to begin after one that ended at `end`. `align` gives the first round reading at or after a
 * time, on the plan's own clock or on the pool's.
 */
export function plannedStart(
  stretch: Stretch,
  before: Stretch,
  end: Millis,
  between: Millis,
  align: (time: Millis) => Millis,
): Millis {
  if (beginsPart(stretch, before)) return align(end + between);
  return stretch.kind === 'swim' ? align(end) : end;
}
