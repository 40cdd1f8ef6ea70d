/*
 * The lines of a session that somebody swims, each once, however many rounds it has, with the distances for each lane.
 * The warnings about lines are worked out from these.
 */

import { itemsUnder, swims, type Item, type Part, type Session } from '../../session/session.ts';
import type { Tenths } from '../../units.ts';
import { distancesOf, swimsOf, type Distances, type Swim, type SwimItem } from '../swims.ts';

export interface SwimLine {
  readonly item: SwimItem;
  readonly partName: string;
  /**
   * In lane order: one for each rung of a ladder; else one for all reps, in an untimed set too. None for a swim by time,
   * or for a lane that sits out.
   */
  readonly distances: readonly (readonly Tenths[])[];
  /** In lane order, how often each of the distances of a set is swum; 0 if the lane sits out. */
  readonly times: readonly number[];
  /** In lane order, what the plan asks of each lane in one passage. */
  readonly swims: readonly (readonly Swim[])[];
}

/** In order of the text. */
export function linesOf(session: Session): readonly SwimLine[] {
  const lines: SwimLine[] = [];
  for (const part of session.parts) collect(part.items, part, session, lines);
  return lines;
}

function collect(items: readonly Item[], part: Part, session: Session, lines: SwimLine[]): void {
  for (const item of items) {
    collect(itemsUnder(item), part, session, lines);
    if (item.kind === 'set' || item.kind === 'block' || item.kind === 'timed-swim') {
      const asked = session.lanes.map((_, index) => laneDistances(item, index));
      const distances = asked.map(({ distances, times }) => (times === 0 ? [] : distances));
      const times = asked.map((each) => each.times);
      lines.push({ item, partName: part.name, distances, times, swims: swimsOf(item, part.name, session) });
    }
  }
}

function laneDistances(item: SwimItem, index: number): Distances {
  const times = swims(item.lanes, index) ? 1 : 0;
  if (item.kind === 'timed-swim') return { distances: [], times };
  return item.kind === 'block' ? { distances: [item.distances[index]!], times } : distancesOf(item, index);
}
