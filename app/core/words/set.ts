/*
 * Sets as on a whiteboard: `4 x 50 fast`, `3 rounds: 150 steady, 4 x 50 fast`. Intervals are left out: they are a
 * lane's own, and stand in its strip. Where cuts are handed in, what they have taken away is not counted.
 */

import {
  swims,
  type Item,
  type LaneLines,
  type SomeLanes,
  type SwimSet,
  type TimedBlock,
  type TimedSwim,
} from '../session/session.ts';
import { holdsLine } from '../session/item-on-line.ts';
import type { Tenths } from '../units.ts';
import { distanceText } from './distance.ts';
import { lanesNamed } from './lanes.ts';
import { spaced } from './phrase.ts';
import { reading } from './time/reading.ts';
import { roundText, roundsText } from './round.ts';
import { pauseText } from './stretch.ts';

/** How many reps or rounds have been cut, by line. */
export type Cuts = ReadonlyMap<number, number>;

export const NO_CUTS: Cuts = new Map();

type Rounds = Extract<Item, { readonly kind: 'rounds' }>;

/**
 * One item of a part as written, without what has been cut; rounds with what is in them. `within`: it stands under
 * a line that names its lanes.
 */
export function itemWords(item: Item, cuts: Cuts, within = false): string {
  switch (item.kind) {
    case 'set':
    case 'block':
    case 'timed-swim':
      return forLanes(within ? null : item.lanes, lineWords(item, cuts));
    case 'rounds':
      return `${roundsLeft(item, cuts)}: ${innerList(item, cuts, within)}`;
    case 'lanes':
      return forLanes(item.lanes, innerList(item, cuts, true));
    case 'talk':
    case 'break':
      return pauseText(item);
  }
}

/** Where a session goes on: on which line, and in which of the outermost rounds around it, 1 where there are none. */
interface From {
  readonly line: number;
  readonly round: number;
}

/** What is left of an item from a place in it on: "round 2 of 2: 4 x 25 fast, break 0:30". */
export function itemWordsFrom(item: Item, cuts: Cuts, { line, round }: From): string {
  if (item.kind !== 'rounds') return itemWords(item, cuts);
  const at = item.items.findIndex((inner) => holdsLine(inner, line));
  if (at < 0 || (at === 0 && round <= 1)) return itemWords(item, cuts);
  const of = Math.max(round, left(item.times, cutOf(item.line, cuts)));
  const rest = innerList({ ...item, items: item.items.slice(at) }, cuts, false);
  return `${at > 0 ? 'rest of ' : ''}${roundText([{ round, of }])}: ${rest}`;
}

/** Sets that lanes swim at the same time, each its own: "lanes 1–6: 10 x 100; lanes 7–10: 8 x 100". */
export function besideWords(items: readonly Item[], cuts: Cuts): string {
  return items.map((item) => itemWords(item, cuts)).join('; ');
}

/** "lanes 1 and 2: 4 x 50"; without the lanes where a line is for all. */
export function forLanes(lanes: SomeLanes, words: string): string {
  return lanes === null ? words : `${lanesNamed(lanes.numbers)}: ${words}`;
}

function lineWords(item: SwimSet | TimedBlock | TimedSwim, cuts: Cuts): string {
  if (item.kind === 'set') return spaced(setSize(item, cutOf(item.line, cuts)), item.words);
  if (item.kind === 'timed-swim') return spaced(reading(item.time), item.words);
  return spaced(blockSize(item.time, byLane(ofLanes(item.lanes, item.distances).map(distanceText))), item.words);
}

/** The values of the lanes that a line is for. */
function ofLanes<Value>(lanes: SomeLanes, values: readonly Value[]): readonly Value[] {
  return values.filter((_, index) => swims(lanes, index));
}

/** One lane's own share of a set: `7 x 75 free` of `8/7/6 x 75 free`. lane: its index in lane order. */
export function laneSetWords(set: SwimSet, lane: number, cuts: Cuts = NO_CUTS): string {
  return spaced(laneSetSize(set, lane, cutOf(set.line, cuts)), set.words);
}

/** One lane's own share of any line that is swum: `15:00 easy`, `20:00 of 75s free`, `7 x 75 free`. */
export function laneLineWords(item: SwimSet | TimedBlock | TimedSwim, lane: number): string {
  if (item.kind === 'set') return laneSetWords(item, lane);
  if (item.kind === 'timed-swim') return lineWords(item, NO_CUTS);
  return spaced(blockSize(item.time, distanceText(item.distances[lane] ?? 0)), item.words);
}

/** What stands under it left out: "3 rounds", "lanes 1 and 2"; null for a line that nothing stands under. */
export function headingWords(item: Item, cuts: Cuts): string | null {
  if (item.kind === 'lanes') return item.lanes && lanesNamed(item.lanes.numbers);
  const stands = item.kind === 'rounds' && item.items.some(({ line }) => line !== item.line);
  return stands ? roundsLeft(item, cuts) : null;
}

/** "3 rounds", without those that have been cut. */
export function roundsLeft({ times, line }: Rounds, cuts: Cuts): string {
  return roundsText(left(times, cutOf(line, cuts)));
}

/** The cuts of what is in the rounds: of a line that is both rounds and a set, the cuts are of its rounds. */
export function cutsInside({ line }: Rounds | LaneLines, cuts: Cuts): Cuts {
  return cuts.has(line) ? new Map([...cuts].filter(([cut]) => cut !== line)) : cuts;
}

/** "4 x 50"; a count of 1 is left out. */
export function setSizeText(count: string, distance: string): string {
  return count === '1' ? distance : `${count} x ${distance}`;
}

/** "20:00 of 100s": a timed block. */
export function blockSize(time: number, distance: string): string {
  return `${reading(time)} of ${distance}s`;
}

/** Every rung of a ladder, be all of them alike: `100-200-100`. */
export function ladderText(distances: readonly Tenths[], cut = 0): string {
  return distances.slice(0, left(distances.length, cut)).map(distanceText).join('-');
}

/** One value for all lanes where they agree, else one a lane: `8/7/6`. */
export function byLane(values: readonly string[]): string {
  return oneOr(values, '/');
}

/** One value for all reps where they agree, else one a rep: `1:30-1:25`. */
export function byRep(values: readonly string[]): string {
  return oneOr(values, '-');
}

function oneOr(values: readonly string[], between: string): string {
  return values.every((value) => value === values[0]) ? (values[0] ?? '') : values.join(between);
}

function cutOf(line: number, cuts: Cuts): number {
  return cuts.get(line) ?? 0;
}

function laneSetSize({ reps }: SwimSet, lane: number, cut: number): string {
  if (reps.kind === 'ladder') return ladderText(reps.distances, cut);
  return setSizeText(`${left(reps.counts[lane] ?? 0, cut)}`, distanceText(reps.distances[lane] ?? 0));
}

function setSize({ reps, lanes }: SwimSet, cut: number): string {
  if (reps.kind === 'ladder') return ladderText(reps.distances, cut);
  const counts = ofLanes(lanes, reps.counts).map((count) => `${left(count, cut)}`);
  return setSizeText(byLane(counts), byLane(ofLanes(lanes, reps.distances).map(distanceText)));
}

/** Cuts leave one rep at least where there is any. */
function left(count: number, cut: number): number {
  return count === 0 ? 0 : Math.max(1, count - cut);
}

/** Rounds in rounds are bracketed, so that it is seen where they end. */
function innerWords(item: Item, cuts: Cuts, within: boolean): string {
  if (item.kind !== 'rounds') return itemWords(item, cuts, within);
  return `${roundsLeft(item, cuts)} of (${innerList(item, cuts, within)})`;
}

function innerList(over: Rounds | LaneLines, cuts: Cuts, within: boolean): string {
  const inner = cutsInside(over, cuts);
  return over.items.map((item) => innerWords(item, inner, within)).join(', ');
}
