/*
 * What each lane really did, from the leaves that happened.
 */

import type { Millis, Tenths } from '../../../app/core/units.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import type { Leave } from '../../../app/core/run/record.ts';

export interface LaneRecord {
  readonly lane: number;
  readonly leaves: number;
  readonly distance: Tenths;
  /** What the plan in force had for the lane. */
  readonly planned: { readonly leaves: number; readonly distance: Tenths };
  /** The lane's first and last leave; null if it never left. */
  readonly first: Millis | null;
  readonly last: Millis | null;
  readonly parts: readonly { readonly part: string; readonly leaves: number; readonly distance: Tenths }[];
}

/** One for each lane, in lane order. `plan` is the one in force at the end. */
export function laneRecords(plan: Plan, leaves: readonly Leave[]): readonly LaneRecord[] {
  const partOfOrder = partNames(plan);
  return plan.session.lanes.map(({ number }, index) => {
    const own = leaves.filter(({ lane }) => lane === number);
    const planned = plan.stretches.reduce(
      (reps, { lanes }) => reps.concat(lanes[index]?.reps ?? []),
      [] as { distance: Tenths }[],
    );
    const parts = new Map<string, { part: string; leaves: number; distance: Tenths }>();
    for (const { rep } of own) {
      const part = partOfOrder.get(rep.set.line) ?? '';
      const sum = parts.get(part) ?? { part, leaves: 0, distance: 0 };
      parts.set(part, { part, leaves: sum.leaves + 1, distance: sum.distance + rep.distance });
    }
    return {
      lane: number,
      leaves: own.length,
      distance: own.reduce((sum, { rep }) => sum + rep.distance, 0),
      planned: { leaves: planned.length, distance: planned.reduce((sum, { distance }) => sum + distance, 0) },
      first: own[0]?.at ?? null,
      last: own[own.length - 1]?.at ?? null,
      parts: [...parts.values()],
    };
  });
}

/** The part of each line of the text in force. */
export function partNames(plan: Plan): ReadonlyMap<number, string> {
  const names = new Map<number, string>();
  for (const { part, lanes } of plan.stretches) {
    for (const { reps } of lanes) for (const { set } of reps) names.set(set.line, part);
  }
  return names;
}
