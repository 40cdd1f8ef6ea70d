/*
 * Spreads lists over the lanes: `8/7/6` needs three lanes, `8` is for any number. The result is the session's item
 * for a line, checked in every lane that swims it.
 */

import type { Millis, Tenths } from '../../units.ts';
import { count } from '../../words/phrase.ts';
import { factorOf } from './pace.ts';
import {
  wayOf,
  type Hold,
  type Item,
  type Lane,
  type Rounds,
  type SwimSet,
  type Timing,
  type Way,
} from '../session.ts';
import type { Clauses, TimedBy, WrittenTiming } from '../line/clauses.ts';
import { isFlaw, type Flaw } from '../values/flaw.ts';
import { judgeRep, judgeReps, repsInBlock, withoutCss, type LineForLane } from './lane-reps.ts';
import { columnAt, type Line } from '../text/lines.ts';
import type { PartLine, WrittenBlock, WrittenLaneLines, WrittenRounds } from '../line/part-line.ts';
import type { WrittenSet } from '../line/set-line.ts';
import type { Listed, RepListed, WrittenDistance } from '../values/values.ts';

export interface Squad {
  /** In lane order. `isValid` is false if the lane's own line has a fault: then nothing is checked by its pace. */
  readonly lanes: readonly { readonly lane: Lane; readonly isValid: boolean }[];
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

/** What a line asks of a lane by its place, for a rep from 0. */
type Asker = (lane: Lane | null, index: number, rep: number) => LineForLane;

const ONE: Listed<number> = { values: [1], at: [0], end: 0 };

/** The item of a line that swims or pauses, or the first thing wrong with it in some lane. `squad`: who swims it. */
export function spreadLine(
  line: Line,
  written: Exclude<PartLine, WrittenRounds | WrittenLaneLines>,
  partName: string,
  squad: Squad,
): Spread | Flaw {
  if (written.kind === 'set') return spreadSet(line, written, partName, squad);
  if (written.kind === 'block') return spreadBlock(line, written, partName, squad);
  const place = placeOf(line, 0);
  const { kind, time, words } = written;
  if (kind !== 'timed-swim') return { item: { kind, time, words, ...place }, leaves: 0 };
  return { item: { kind, time, words, ...place, lanes: null }, leaves: squad.lanes.length };
}

function spreadSet(line: Line, written: WrittenSet, partName: string, squad: Squad): Spread | Flaw {
  const { clauses } = written;
  const lanes = lanesFor(squad, clauses, [written.counts, written.ladder ? null : written.distances]);
  const reps = spreadReps(written, lanes.length);
  if (isFlaw(reps)) return reps;
  const ways = spreadWays(clauses, lanes.length);
  if (isFlaw(ways)) return ways;
  const each = ways.length > 1 ? ways : null;
  const place = placeOf(line, written.at);
  const set: SwimSet = { kind: 'set', ...place, lanes: null, reps, ...ways[0]!, words: clauses.words, ways: each };
  const leaves = judgeSet(set, clauses, lanes, partName, squad.grid);
  if (typeof leaves !== 'number') return leaves;
  if (written.rounds === null) return { item: set, leaves };
  const item: Rounds = { kind: 'rounds', ...placeOf(line, 0), times: written.rounds, items: [set] };
  return { item, leaves: leaves * written.rounds };
}

/** How many leaves a set has in all lanes together, or the first thing wrong with it in one of them. */
function judgeSet(set: SwimSet, clauses: Clauses, lanes: LaneList, partName: string, grid: Millis): number | Flaw {
  const { reps, ways } = set;
  const askedOf = asker(set, clauses, partName, grid);
  let leaves = 0;
  let lacking: Flaw | null = null;
  const lack: number[] = [];
  const doDiffer = reps.kind === 'repeat' && new Set(reps.counts.filter((times) => times > 0)).size > 1;
  for (const [index, lane] of lanes.entries()) {
    const times = reps.kind === 'ladder' ? reps.distances.length : reps.counts[index]!;
    if (times === 0) continue;
    const wrongList = listFlaw(clauses, times, doDiffer ? lane : null);
    if (wrongList) return wrongList;
    leaves += set.timing.kind === 'untimed' ? 1 : times;
    const distanceAt = (rep: number): Tenths =>
      reps.kind === 'ladder' ? reps.distances[rep]! : reps.distances[index]!;
    const different = reps.kind === 'ladder' ? times : Math.min(times, ways?.length ?? 0);
    const flaw =
      different === 0
        ? judgeReps(askedOf(lane, index, 0), distanceAt(0), times)
        : firstFlaw(different, (rep) => judgeRep(askedOf(lane, index, rep), distanceAt(rep), rep));
    if (flaw && !flaw.lacks) return lacking ?? flaw;
    if (!flaw?.lacks || (lacking && lacking.lacks!.css !== flaw.lacks.css)) continue;
    lack.push(flaw.lacks.lane);
    lacking = withoutCss(lacking?.at ?? flaw.at, flaw.lacks.css, lack);
  }
  return lacking ?? leaves;
}

function firstFlaw(reps: number, judge: (rep: number) => Flaw | null): Flaw | null {
  for (let rep = 0; rep < reps; rep++) {
    const flaw = judge(rep);
    if (flaw) return flaw;
  }
  return null;
}

/** That a list of one interval or target a rep has more or fewer than there are reps; `lane`: null if it is so in all. */
function listFlaw({ timing, hold }: Clauses, reps: number, lane: Lane | null): Flaw | null {
  const intervals = timing.kind === 'interval' ? timing.lists : [];
  for (const [what, list] of [['intervals', intervals] as const, ['targets', hold?.lists ?? []] as const]) {
    if (list.length < 2 || list.length === reps) continue;
    const where = lane ? ` in lane ${lane.number}` : '';
    const message = `${list.length} ${what} for ${count(reps, 'rep')}${where}: write one for each rep`;
    return { at: list[1]!.at[0]!, message };
  }
  return null;
}

function spreadBlock(line: Line, written: WrittenBlock, partName: string, squad: Squad): Spread | Flaw {
  const { clauses, time } = written;
  const lanes = lanesFor(squad, clauses, [written.distances]);
  const distances = spreadList(written.distances, lanes.length);
  if (isFlaw(distances)) return distances;
  const timing = spreadTimed(clauses.timing, 0, lanes.length);
  if (isFlaw(timing)) return timing;
  const hold = spreadHold(clauses.hold, 0, lanes.length);
  if (hold && isFlaw(hold)) return hold;
  const way = { words: clauses.words, timing, hold };
  const askedOf = askerBy(() => way, clauses, partName, squad.grid);
  let leaves = 0;
  const tenths = tenthsOf(distances);
  let lacking: Flaw | null = null;
  const lack: number[] = [];
  for (const [index, lane] of lanes.entries()) {
    const reps = repsInBlock(askedOf(lane, index, 0), tenths[index]!, time);
    if (!isFlaw(reps)) leaves += reps.count;
    else if (!reps.lacks) return lacking ?? reps;
    else {
      lack.push(reps.lacks.lane);
      lacking = withoutCss(lacking?.at ?? reps.at, reps.lacks.css, lack);
    }
  }
  if (lacking) return lacking;
  const listed = isList(written.distances);
  const place = placeOf(line, 0);
  return { item: { kind: 'block', ...place, lanes: null, time, distances: tenths, listed, ...way }, leaves };
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

/** Every way in which reps are swum, in their order; one alone where they are alike. */
function spreadWays({ timing, hold, words, halves }: Clauses, lanes: number): readonly Way[] | Flaw {
  const written = halves ?? Array.from({ length: waysIn(timing, hold) }, () => ({ timing, hold, words }));
  const ways: Way[] = [];
  for (const [rep, way] of written.entries()) {
    const timed = way.timing.kind === 'untimed' ? way.timing : spreadTimed(way.timing, rep, lanes);
    if (isFlaw(timed)) return timed;
    const held = spreadHold(way.hold, rep, lanes);
    if (held && isFlaw(held)) return held;
    ways.push({ words: way.words, timing: timed, hold: held });
  }
  return ways;
}

function waysIn(timing: WrittenTiming, hold: RepListed<Hold> | null): number {
  return Math.max(timing.kind === 'interval' ? timing.lists.length : 1, hold ? hold.lists.length : 1);
}

function spreadTimed(timing: TimedBy, rep: number, lanes: number): Exclude<Timing, { kind: 'untimed' }> | Flaw {
  if (timing.kind === 'rest') {
    const rests = spreadList(timing.lists[0], lanes);
    return isFlaw(rests) ? rests : { kind: 'rest', lanes: rests };
  }
  const intervals = spreadList(listFor(timing.lists, rep), lanes);
  return isFlaw(intervals) ? intervals : { kind: 'interval', lanes: intervals, step: timing.step };
}

function spreadHold(hold: RepListed<Hold> | null, rep: number, lanes: number): readonly Hold[] | Flaw | null {
  return hold && spreadList(listFor(hold.lists, rep), lanes);
}

/** A rep's own list, or the one for all. A rep beyond the last has the last one's: that is a fault. */
function listFor<Value>(lists: readonly Listed<Value>[], rep: number): Listed<Value> {
  return lists[Math.min(rep, lists.length - 1)]!;
}

/** One value for all lanes, or one a lane. */
function spreadList<Value>({ values, at }: Listed<Value>, lanes: number): readonly Value[] | Flaw {
  if (values.length === lanes) return values;
  if (values.length === 1) return new Array<Value>(lanes).fill(values[0]!);
  const message = `a list of ${values.length} for ${count(lanes, 'lane')}: write one value for all, or one for each lane`;
  return { at: at[0]!, message, checkedAgainst: 'lanes' };
}

function asker(set: SwimSet, clauses: Clauses, partName: string, grid: Millis): Asker {
  return askerBy((rep) => wayOf(set, rep), clauses, partName, grid);
}

/** What a line asks of a lane, with the places of its own values in the lists. */
function askerBy(wayAt: (rep: number) => Way, clauses: Clauses, partName: string, grid: Millis): Asker {
  const factors = new Map<string, LineForLane['factor']>();
  return (lane, index, rep) => {
    const { words, timing, hold } = wayAt(rep);
    const factor = factors.get(words) ?? factorOf(words, partName);
    factors.set(words, factor);
    const written = clauses.halves ? clauses.halves[rep % 2]! : clauses;
    const timingAt =
      written.timing.kind === 'untimed' ? 0 : valueAt(listFor<unknown>(written.timing.lists, rep), index);
    const holdAt = written.hold ? valueAt(listFor(written.hold.lists, rep), index) : 0;
    return { lane, index, timing, hold: hold?.[index], factor, grid, timingAt, holdAt };
  };
}

/** The lanes to judge by; where they are not certain, as many unknown ones as the line's longest list has values. */
function lanesFor(squad: Squad, clauses: Clauses, lists: readonly (Listed<unknown> | null)[]): LaneList {
  if (squad.certain) return squad.lanes.map(({ lane, isValid }) => (isValid ? lane : null));
  const all: (Listed<unknown> | null)[] = [...lists];
  for (const { timing, hold } of clauses.halves ?? [clauses]) {
    all.push(...(timing.kind === 'untimed' ? [] : timing.lists), ...(hold?.lists ?? []));
  }
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
