/*
 * Spreads lists over the lanes: `8/7/6` needs three lanes, `8` is for any number. The result is the session's item
 * for a line, checked in every lane that swims it.
 */

import type { Millis, Tenths } from '../units.ts';
import { count } from '../words/phrase.ts';
import { factorOf } from './pace.ts';
import type { Hold, Item, Lane, Rounds, SwimSet, Timing } from './session.ts';
import type { Clauses, TimedBy } from './clauses.ts';
import { isFlaw, type Flaw } from './flaw.ts';
import { judgeLadder, judgeReps, repsInBlock, type LineForLane } from './lane-reps.ts';
import { columnAt, type Line } from './lines.ts';
import type { PartLine, WrittenBlock, WrittenRounds } from './part-line.ts';
import type { WrittenSet } from './set-line.ts';
import type { Listed, WrittenDistance } from './values.ts';

export interface Squad {
  /** In lane order. `sound` is false if the lane's own line has a fault: then nothing is checked by its pace. */
  readonly lanes: readonly { readonly lane: Lane; readonly sound: boolean }[];
  /** False if a faulty line may have been meant as a lane. */
  readonly certain: boolean;
  readonly grid: Millis;
}

/** A line's item, and how many leaves all lanes together have in it. */
export interface Spread {
  readonly item: Item;
  readonly leaves: number;
}

type LaneList = readonly (Lane | null)[];

const ONE: Listed<number> = { values: [1], at: [0], end: 0 };

/** The item of any line except rounds, or the first thing that is wrong with it in a lane. */
export function spreadLine(
  line: Line,
  written: Exclude<PartLine, WrittenRounds>,
  partName: string,
  squad: Squad,
): Spread | Flaw {
  if (written.kind === 'set') return spreadSet(line, written, partName, squad);
  if (written.kind === 'block') return spreadBlock(line, written, partName, squad);
  const item = { ...written, ...placeOf(line, 0) };
  return { item, leaves: written.kind === 'timed-swim' ? squad.lanes.length : 0 };
}

function spreadSet(line: Line, written: WrittenSet, partName: string, squad: Squad): Spread | Flaw {
  const { clauses } = written;
  const lists = [written.counts, written.ladder ? null : written.distances];
  const lanes = lanesFor(squad, clauses, lists);
  const reps = spreadReps(written, lanes.length);
  if (isFlaw(reps)) return reps;
  const timing = clauses.timing.kind === 'untimed' ? clauses.timing : spreadTiming(clauses.timing, lanes.length);
  const spread = withHold(timing, clauses, lanes.length);
  if (isFlaw(spread)) return spread;
  const askedOf = asker(clauses, spread, partName, squad.grid);
  let leaves = 0;
  for (const [index, lane] of lanes.entries()) {
    const count = reps.kind === 'ladder' ? reps.distances.length : reps.counts[index]!;
    if (count === 0) continue;
    leaves += spread.timing.kind === 'untimed' ? 1 : count;
    const asked = askedOf(lane, index);
    const flaw =
      reps.kind === 'ladder' ? judgeLadder(asked, reps.distances) : judgeReps(asked, reps.distances[index]!, count);
    if (flaw) return flaw;
  }
  const set: SwimSet = { kind: 'set', ...placeOf(line, written.at), reps, words: clauses.words, ...spread };
  if (written.rounds === null) return { item: set, leaves };
  const item: Rounds = { kind: 'rounds', ...placeOf(line, 0), times: written.rounds, items: [set] };
  return { item, leaves: leaves * written.rounds };
}

function spreadBlock(line: Line, written: WrittenBlock, partName: string, squad: Squad): Spread | Flaw {
  const { clauses, time } = written;
  const lanes = lanesFor(squad, clauses, [written.distances]);
  const distances = spreadList(written.distances, lanes.length);
  if (isFlaw(distances)) return distances;
  const spread = withHold(spreadTiming(clauses.timing, lanes.length), clauses, lanes.length);
  if (isFlaw(spread)) return spread;
  const askedOf = asker(clauses, spread, partName, squad.grid);
  let leaves = 0;
  const tenths = distances.map((distance) => distance.tenths);
  for (const [index, lane] of lanes.entries()) {
    const reps = repsInBlock(askedOf(lane, index), tenths[index]!, time);
    if (isFlaw(reps)) return reps;
    leaves += reps.count;
  }
  const place = placeOf(line, 0);
  return {
    item: {
      kind: 'block',
      ...place,
      time,
      distances: tenths,
      listed: isList(written.distances),
      words: clauses.words,
      ...spread,
    },
    leaves,
  };
}

function spreadReps(written: WrittenSet, lanes: number): SwimSet['reps'] | Flaw {
  if (written.ladder) return { kind: 'ladder', distances: tenthsOf(written.distances.values) };
  const counts = spreadList(written.counts ?? ONE, lanes);
  if (isFlaw(counts)) return counts;
  const distances = spreadList(written.distances, lanes);
  return isFlaw(distances)
    ? distances
    : { kind: 'repeat', counts, distances: tenthsOf(distances), listed: isList(written.distances) };
}

function isList({ values }: Listed<unknown>): boolean {
  return values.length > 1;
}

function withHold<Kind extends Timing>(
  timing: Kind | Flaw,
  { hold }: Clauses,
  lanes: number,
): { readonly timing: Kind; readonly hold: readonly Hold[] | null } | Flaw {
  if (isFlaw(timing)) return timing;
  const holds = hold && spreadList(hold, lanes);
  return holds && isFlaw(holds) ? holds : { timing, hold: holds };
}

function spreadTiming(timing: TimedBy, lanes: number): Exclude<Timing, { kind: 'untimed' }> | Flaw {
  if (timing.kind === 'rest') {
    const rests = spreadList(timing.list, lanes);
    return isFlaw(rests) ? rests : { kind: 'rest', lanes: rests };
  }
  const intervals = spreadList(timing.list, lanes);
  return isFlaw(intervals) ? intervals : { kind: 'interval', lanes: intervals, step: timing.step };
}

/** One value for all lanes, or one a lane. */
function spreadList<Value>({ values, at }: Listed<Value>, lanes: number): readonly Value[] | Flaw {
  if (values.length === lanes) return values;
  if (values.length === 1) return new Array<Value>(lanes).fill(values[0]!);
  const message = `a list of ${values.length} for ${count(lanes, 'lane')}: write one value for all, or one for each lane`;
  return { at: at[0]!, message, judgedBy: 'lanes' };
}

/** What a line asks of a lane, with the places of that lane's values in the lists. */
function asker(
  clauses: Clauses,
  spread: { readonly timing: Timing; readonly hold: readonly Hold[] | null },
  partName: string,
  grid: Millis,
): (lane: Lane | null, index: number) => LineForLane {
  const { timing } = spread;
  const factor = factorOf(clauses.words, partName);
  return (lane, index) => {
    const timingAt = clauses.timing.kind === 'untimed' ? 0 : valueAt(clauses.timing.list, index);
    const holdAt = clauses.hold ? valueAt(clauses.hold, index) : 0;
    return { lane, index, timing, hold: spread.hold?.[index], factor, grid, timingAt, holdAt };
  };
}

/** The lanes to check a line in. If the lanes are not certain: as many unknown ones as its longest list has values. */
function lanesFor(squad: Squad, { timing, hold }: Clauses, lists: readonly (Listed<unknown> | null)[]): LaneList {
  if (squad.certain) return squad.lanes.map(({ lane, sound }) => (sound ? lane : null));
  const all = [...lists, hold, timing.list];
  return new Array<null>(Math.max(...all.map((list) => list?.values.length ?? 1))).fill(null);
}

function valueAt(list: Listed<unknown>, index: number): number {
  return list.at[index] ?? list.at[0]!;
}

function tenthsOf(distances: readonly WrittenDistance[]): readonly Tenths[] {
  return distances.map((distance) => distance.tenths);
}

/** Line and column of an index into a line's text. */
export function placeOf(line: Line, at: number): { readonly line: number; readonly column: number } {
  return { line: line.number, column: columnAt(line.raw, line.start + at) };
}
