/*
 * Sets in words, as on a whiteboard: `4 x 50 fast`, `3 rounds: 150 steady, 4 x 50 fast`. Intervals
 * are left out: they are a lane's own, and stand in its strip. Where cuts are handed in, what they have
 * taken away is not counted.
 */

import { distanceText } from '../../app/core/lengths.ts';
import { reading } from '../../app/core/reading.ts';
import type { Item, Part, SwimSet } from '../../app/core/session/session.ts';
import type { Tenths } from '../../app/core/units.ts';

/** How many reps or rounds have been cut, by line. */
export type Cuts = ReadonlyMap<number, number>;

export const NO_CUTS: Cuts = new Map();

/** One item of a part as written, without what has been cut; rounds with what is in them. */
export function itemWords(item: Item, cuts: Cuts): string {
  switch (item.kind) {
    case 'set':
      return joined(setSize(item, cutOf(item.line, cuts)), item.words);
    case 'block':
      return joined(`${reading(item.time)} of ${listText(item.distances.map(distanceText))}s`, item.words);
    case 'timed-swim':
      return joined(reading(item.time), item.words);
    case 'rounds':
      return `${roundsLeft(item, cuts)}: ${innerList(item, cuts)}`;
    case 'talk':
    case 'break':
      return joined(`${item.kind} ${reading(item.time)}`, item.words);
  }
}

/** The item of a part that a line belongs to, by its place in the part; -1 where it is of no item. */
export function itemIndexOf(part: Part, line: number): number {
  return part.items.findIndex((item) => holdsLine(item, line));
}

/** The set on a line, at any depth; null where there is none. */
export function setOnLine(part: Part, line: number): Item | null {
  return find(part.items, line);
}

/** One lane's own share of a set: `7 x 75 free` of `8/7/6 x 75 free`. lane: its index in lane order. */
export function laneSetWords(set: SwimSet, lane: number, cuts: Cuts = NO_CUTS): string {
  return joined(laneSetSize(set, lane, cutOf(set.line, cuts)), set.words);
}

function cutOf(line: number, cuts: Cuts): number {
  return cuts.get(line) ?? 0;
}

function laneSetSize({ reps }: SwimSet, lane: number, cut: number): string {
  if (reps.kind === 'ladder') return ladderText(reps.distances, cut);
  return countText(`${left(reps.counts[lane] ?? 0, cut)}`, distanceText(reps.distances[lane] ?? 0));
}

function setSize({ reps }: SwimSet, cut: number): string {
  if (reps.kind === 'ladder') return ladderText(reps.distances, cut);
  const counts = reps.counts.map((count) => `${left(count, cut)}`);
  return countText(listText(counts), listText(reps.distances.map(distanceText)));
}

function ladderText(distances: readonly Tenths[], cut: number): string {
  return distances.slice(0, left(distances.length, cut)).map(distanceText).join('-');
}

/** Cuts leave one rep at least where there is any. */
function left(count: number, cut: number): number {
  return count === 0 ? 0 : Math.max(1, count - cut);
}

function countText(count: string, distance: string): string {
  return count === '1' ? distance : `${count} x ${distance}`;
}

/** Rounds in rounds are bracketed, so that it is seen where they end. */
function innerWords(item: Item, cuts: Cuts): string {
  if (item.kind !== 'rounds') return itemWords(item, cuts);
  return `${roundsLeft(item, cuts)} of (${innerList(item, cuts)})`;
}

function innerList(rounds: Rounds, cuts: Cuts): string {
  const inner = cutsInside(rounds, cuts);
  return rounds.items.map((item) => innerWords(item, inner)).join(', ');
}

/** The cuts of what is in the rounds: of a line that is both rounds and a set, the cuts are of its rounds. */
export function cutsInside({ line }: Rounds, cuts: Cuts): Cuts {
  return cuts.has(line) ? new Map([...cuts].filter(([cut]) => cut !== line)) : cuts;
}

/** "3 rounds", without those that have been cut. */
export function roundsLeft({ times, line }: Rounds, cuts: Cuts): string {
  return roundsText(left(times, cutOf(line, cuts)));
}

type Rounds = Extract<Item, { readonly kind: 'rounds' }>;

function roundsText(times: number): string {
  return times === 1 ? '1 round' : `${times} rounds`;
}

function listText(values: readonly string[]): string {
  return values.every((value) => value === values[0]) ? (values[0] ?? '') : values.join('/');
}

function joined(size: string, words: string): string {
  return words === '' ? size : `${size} ${words}`;
}

function holdsLine(item: Item, line: number): boolean {
  return item.line === line || (item.kind === 'rounds' && item.items.some((inner) => holdsLine(inner, line)));
}

function find(items: readonly Item[], line: number): Item | null {
  for (const item of items) {
    const found = item.kind === 'rounds' ? find(item.items, line) : item.line === line ? item : null;
    if (found) return found;
  }
  return null;
}

/** A distance in words where there is one: `50 fast`; a swim by time has none. */
export function repWords(distance: Tenths, words: string): string {
  return distance === 0 ? words : joined(distanceText(distance), words);
}
