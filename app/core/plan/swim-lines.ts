/*
 * The lines of a session that somebody swims, each once, however many rounds it has, with the distances for each lane.
 * The warnings about lines are worked out from these.
 */

import type { Ratio } from '../ratio.ts';
import { factorOf } from '../session/pace.ts';
import type { Item, Part, Session } from '../session/session.ts';
import type { Tenths } from '../units.ts';
import { distancesOf, swimsOf, type Distances, type Swim, type SwimItem } from './swims.ts';

export interface SwimLine {
  readonly item: SwimItem;
  /** How much slower it is because of its words or the name of its part. */
  readonly factor: Ratio;
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
    if (item.kind === 'rounds') collect(item.items, part, session, lines);
    else if (item.kind === 'set' || item.kind === 'block' || item.kind === 'timed-swim') {
      const asked = session.lanes.map((_, index) => laneDistances(item, index));
      const distances = asked.map(({ distances, times }) => (times === 0 ? [] : distances));
      const times = asked.map((each) => each.times);
      const factor = factorOf(item.words, part.name);
      lines.push({ item, factor, distances, times, swims: swimsOf(item, part.name, session) });
    }
  }
}

function laneDistances(item: SwimItem, index: number): Distances {
  if (item.kind === 'timed-swim') return { distances: [], times: 1 };
  return item.kind === 'block' ? { distances: [item.distances[index]!], times: 1 } : distancesOf(item, index);
}
