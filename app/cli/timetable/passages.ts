/*
 * Reads a stretch line by line, as people do: each passage through a set, with the leaves of every lane. The plan
 * itself is in order of lanes.
 */

import type { Plan, Rep, Stretch, PlannedSet } from '../../core/plan/plan.ts';
import { linesOf, type SwimLine } from '../../core/plan/warnings/swim-lines.ts';
import type { Passage } from './set-label.ts';

export interface StretchPassage {
  readonly set: PlannedSet;
  readonly line: SwimLine;
  /** In lane order. */
  readonly lanes: Passage;
}

/** Gives a function for the passages of a stretch of the plan, in the order of the session. */
export function passagesOf(plan: Plan): (stretch: Stretch) => readonly StretchPassage[] {
  const lines = new Map(linesOf(plan.session).map((line) => [line.item.line, line]));
  return (stretch) => {
    const found = new Map<PlannedSet, Rep[][]>();
    stretch.lanes.forEach(({ reps }, lane) => {
      for (const rep of reps) {
        const lanes = found.get(rep.set) ?? stretch.lanes.map(() => []);
        lanes[lane]!.push(rep);
        found.set(rep.set, lanes);
      }
    });
    return Array.from(found, ([set, lanes]) => ({ set, line: lines.get(set.line)!, lanes })).sort(
      (a, b) => a.set.order - b.set.order,
    );
  };
}
