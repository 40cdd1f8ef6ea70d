/*
 * A place in the order of the session, at which a `go-to` makes a stretch begin.
 */

import type { LaneReps, Rep, Stretch } from '../plan/plan.ts';

export interface Place {
  /** The order of its set among all that are swum, and the rep: places compare by these. */
  readonly order: number;
  readonly rep: number;
  /** Where it stands in the text: the set's line, and its round numbers, outermost first. */
  readonly line: number;
  readonly rounds: readonly number[];
}

/** How a command from outside names a rep. */
interface RepName {
  readonly line: number;
  /** Outermost first; left out if the rep is not in rounds. */
  readonly rounds?: readonly number[];
  readonly rep: number;
}

/** The place of a rep in a stretch, in any lane that swims it; null if no lane does. */
export function placeIn(stretch: Stretch, { line, rounds = [], rep }: RepName): Place | null {
  for (const { reps } of stretch.lanes) {
    for (const candidate of reps) {
      const { set } = candidate;
      if (set.line !== line || candidate.rep !== rep || set.rounds.length !== rounds.length) continue;
      if (set.rounds.every(({ round }, depth) => round === rounds[depth])) return placeOf(candidate);
    }
  }
  return null;
}

export function placeOf({ set, rep }: Rep): Place {
  return { order: set.order, rep, line: set.line, rounds: set.rounds.map(({ round }) => round) };
}

/** What a lane swims of a stretch that begins at a place: from its first rep at or after it, which gets offset 0. */
export function startingFrom(own: LaneReps, from: Place | null): LaneReps {
  if (!from) return own;
  const first = own.reps.findIndex(
    ({ set, rep }) => set.order > from.order || (set.order === from.order && rep >= from.rep),
  );
  if (first < 0) return { reps: [], length: 0 };
  const skipped = own.reps[first]!.offset;
  return {
    reps: own.reps.slice(first).map((rep) => ({ ...rep, offset: rep.offset - skipped })),
    length: own.length - skipped,
  };
}

/** Whether cuts have left nothing of a stretch, or nothing from a place on. */
export function isEmpty(stretch: Stretch, from: Place | null = null): boolean {
  if (stretch.kind !== 'swim') return stretch.gone === true;
  return stretch.lanes.every((lane) => startingFrom(lane, from).reps.length === 0);
}
