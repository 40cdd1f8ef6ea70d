/*
 * What a plan adds up to: distance by lane and part, and when each part begins and ends.
 */

import type { Millis, MinuteOfDay, Tenths } from '../units.ts';
import { DAY, MINUTE } from '../units.ts';
import type { LaneReps, Plan } from './plan.ts';
import { planDuration, plannedTimes, type PlannedTime } from './schedule.ts';

/** A part that has at least one stretch. */
export interface PartTotal {
  /** The index of the part in the text, from 0; empty parts count. */
  readonly partIndex: number;
  readonly name: string;
  /** The indexes of its first and last stretch in the plan. */
  readonly first: number;
  readonly last: number;
  /** ms from the start of the session to the part's first start, and to its last end. */
  readonly start: Millis;
  readonly end: Millis;
  /** The distance of each lane in it, in lane order; swims by time do not count. */
  readonly distances: readonly Tenths[];
}

export interface Totals {
  readonly parts: readonly PartTotal[];
  /** The distance of each lane in the whole session, in lane order. */
  readonly distances: readonly Tenths[];
  readonly duration: Millis;
  /** How far the planned end is past the finish; 0 if it is not; null without a start or a finish. */
  readonly over: Millis | null;
}

export function totalsOf(plan: Plan, times: readonly PlannedTime[] = plannedTimes(plan)): Totals {
  const none = plan.session.lanes.map(() => 0);
  const parts: PartTotal[] = [];
  plan.stretches.forEach((stretch, index) => {
    const { start, duration } = times[index]!;
    const known = parts[parts.length - 1];
    const same = known && known.partIndex === stretch.partIndex ? known : null;
    const total: PartTotal = {
      partIndex: stretch.partIndex,
      name: stretch.part,
      first: same ? same.first : index,
      last: index,
      start: same ? same.start : start,
      end: start + duration,
      distances: sums(same ? same.distances : none, stretch.lanes),
    };
    if (same) parts[parts.length - 1] = total;
    else parts.push(total);
  });
  const distances = none.map((_, lane) => parts.reduce((sum, part) => sum + part.distances[lane]!, 0));
  const duration = planDuration(times);
  const available = timeToFinish(plan.session.startsAt, plan.session.finishBy);
  return { parts, distances, duration, over: available === null ? null : Math.max(0, duration - available) };
}

/** ms from the start to the finish. A finish before the start is on the next day. null if one of them is missing. */
export function timeToFinish(startsAt: MinuteOfDay | null, finishBy: MinuteOfDay | null): Millis | null {
  if (startsAt === null || finishBy === null) return null;
  const span = (finishBy - startsAt) * MINUTE;
  return span < 0 ? span + DAY : span;
}

/** Adds the distances of a stretch; a talk or break has no lanes. */
function sums(before: readonly Tenths[], lanes: readonly LaneReps[]): readonly Tenths[] {
  if (lanes.length === 0) return before;
  return before.map((sum, lane) => lanes[lane]!.reps.reduce((distance, rep) => distance + rep.distance, sum));
}
