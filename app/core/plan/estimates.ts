/*
 * What of a plan is an estimate: an interval worked out from a rest, the length of an untimed set, and every
 * time that rests on one.
 */

import type { Plan, Stretch } from './plan.ts';

/** Stretches are values: what has been looked up of one holds. */
const known = new WeakMap<Stretch, boolean>();

/** Whether the length of a stretch is an estimate in any lane. */
export function isEstimated(stretch: Stretch): boolean {
  let found = known.get(stretch);
  if (found === undefined) {
    found = stretch.lanes.some(({ reps }) => reps.some(({ estimated }) => estimated));
    known.set(stretch, found);
  }
  return found;
}

/** The first stretch whose start rests on an estimate, by its index; beyond the last + 1 where not even the end does. */
export function estimatedFrom({ stretches }: Pick<Plan, 'stretches'>): number {
  const first = stretches.findIndex(isEstimated);
  return first < 0 ? stretches.length + 1 : first + 1;
}

/** Whether what a cut of a line saves is an estimate: of a set on that line, or in the rounds on it. */
export function lineIsEstimate(stretches: readonly Stretch[], line: number): boolean {
  return stretches.some(({ lanes }) =>
    lanes.some(({ reps }) =>
      reps.some(
        ({ set, estimated }) => estimated && (set.line === line || set.rounds.some((round) => round.line === line)),
      ),
    ),
  );
}

/** Whether the end of the plan rests on an estimate. */
export function endsByEstimate(plan: Pick<Plan, 'stretches'>): boolean {
  return estimatedFrom(plan) <= plan.stretches.length;
}
