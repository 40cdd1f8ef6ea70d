/*
 * A line that is for some lanes only (`lanes 1-3:`): it is spread over these alone, and what comes out is widened to
 * all lanes again, since everything behind it goes by places in lane order.
 */

import { isFlaw, type Flaw } from '../values/flaw.ts';
import { lanesMeant, type LanePrefix } from '../line/lane-prefix.ts';
import type { Item, SomeLanes, SwimSet, Timing, Way } from '../session.ts';
import type { Squad } from './spread.ts';

/** Some lanes of a squad, and how to widen what was spread over them. */
export interface SomeOfSquad {
  readonly squad: Squad;
  readonly lanes: SomeLanes;
  widen(item: Item): Item;
}

/** The lanes that a line names, or what is wrong with one of them. Where the lanes are not certain it is for all. */
export function someOf(squad: Squad, prefix: LanePrefix): SomeOfSquad | Flaw {
  if (!squad.certain) return allOf(squad);
  const meant = lanesMeant(
    prefix,
    squad.lanes.map(({ lane }) => lane.number),
  );
  if (isFlaw(meant)) return meant;
  const among = squad.lanes.filter((_, index) => meant[index]);
  const lanes = { numbers: among.map(({ lane }) => lane.number), swims: meant };
  return { squad: { ...squad, lanes: among }, lanes, widen: (item) => widened(item, lanes) };
}

/** All lanes: nothing to widen. */
export function allOf(squad: Squad): SomeOfSquad {
  return { squad, lanes: null, widen: (item) => item };
}

function widened(item: Item, lanes: NonNullable<SomeLanes>): Item {
  const wide = <Value>(values: readonly Value[], others: Value): readonly Value[] => {
    let next = 0;
    return lanes.swims.map((swims) => (swims ? values[next++]! : others));
  };
  const timing = <Kind extends Timing>(each: Kind): Kind =>
    each.kind === 'untimed' ? each : { ...each, lanes: wide<unknown>(each.lanes, each.lanes[0]) };
  const way = <Kind extends Way>(each: Kind): Kind => ({
    ...each,
    timing: timing(each.timing),
    hold: each.hold && wide(each.hold, each.hold[0]!),
  });
  switch (item.kind) {
    case 'set':
      return { ...way(item), lanes, reps: wideReps(item.reps, wide), ways: item.ways && item.ways.map(way) };
    case 'block':
      return { ...way(item), lanes, distances: wide(item.distances, item.distances[0]!) };
    case 'timed-swim':
      return { ...item, lanes };
    case 'rounds':
      return { ...item, items: item.items.map((each) => widened(each, lanes)) };
    case 'lanes':
    case 'talk':
    case 'break':
      return item;
  }
}

function wideReps(
  reps: SwimSet['reps'],
  wide: <Value>(values: readonly Value[], others: Value) => readonly Value[],
): SwimSet['reps'] {
  if (reps.kind === 'ladder') return reps;
  return { ...reps, counts: wide(reps.counts, 0), distances: wide(reps.distances, reps.distances[0]!) };
}
