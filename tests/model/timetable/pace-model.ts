/*
 * What a lane's pace makes of a set: its base, its intervals, its targets, the time a swim is
 * expected to take. Every sum is an exact fraction until the one rounding that a rule names.
 */

import { exact, isBelow, nearest, plus, times, upTo, type Exact } from './exact.ts';
import {
  valueFor,
  type HoldWord,
  type PerLane,
  type PlainTiming,
  type Scenario,
  type ScenarioBlock,
  type ScenarioLane,
  type ScenarioSet,
} from '../scenario.ts';

const ASSUMED_BASE = 120_000;

/** One swim of a distance, as it was planned. */
export interface Swim {
  /** Tenths of the unit. */
  readonly distance: number;
  readonly words: string;
  /** Milliseconds from this leave to the next; null in an untimed set. */
  readonly interval: number | null;
  readonly target: number | null;
  /** A target was asked for: without one, the lane has no css to take it from. */
  readonly isHeld: boolean;
  /** Its interval is by a rest. */
  readonly byRest: boolean;
  /** What it takes would be different had the lane another base, and the base is only assumed. */
  readonly onAssumedBase: boolean;
  readonly expected: Exact;
}

/** The swims of a set in one lane, in order; none where the lane sits it out. */
export function swimsOf(set: ScenarioSet, scenario: Scenario, laneIndex: number, partName: string): Swim[] {
  const distances =
    set.shape.kind === 'ladder'
      ? set.shape.rungs
      : Array<number>(valueFor(set.shape.counts, laneIndex)).fill(valueFor(set.shape.distances, laneIndex));
  return distances.map((distance, index) => swimOf(set, distance, index, scenario, laneIndex, partName));
}

/** The swims of a timed block in one lane: as many as fit. A text in which not even one does is none. */
export function swimsInBlock(block: ScenarioBlock, scenario: Scenario, laneIndex: number, partName: string): Swim[] {
  const swims: Swim[] = [];
  let used = 0;
  for (;;) {
    const next = swimOf(block, valueFor(block.distances, laneIndex), swims.length, scenario, laneIndex, partName);
    const interval = next.interval ?? 0;
    const fits = used + interval <= block.ms;
    if (!fits) return swims;
    swims.push(next);
    used += interval;
    if (interval <= 0 || swims.length > 500) return swims;
  }
}

/** Milliseconds a 100. */
export function baseOf(lane: ScenarioLane, scenario: Scenario): number {
  if (lane.base !== null) return lane.base;
  if (lane.css === null) return ASSUMED_BASE;
  return upTo(scenario.grid * 1000, plus(times(exact(lane.css), exact(105, 100)), exact(10_000)));
}

/** What a line says of one of its reps. */
interface RepTerms {
  readonly words: string;
  readonly timing: PlainTiming | { readonly kind: 'untimed' };
  readonly hold: PerLane<HoldWord> | null;
}

/** `index` counts from 0, so the first rep is an odd one. */
function termsOf(item: ScenarioSet | ScenarioBlock, index: number): RepTerms {
  const { words, timing } = item;
  const hold = item.hold !== null && 'reps' in item.hold ? valueOfRep(item.hold.reps, index) : item.hold;
  if (timing.kind === 'listed') {
    return { words, hold, timing: { kind: 'interval', lanes: valueOfRep(timing.reps, index), step: 0 } };
  }
  if (timing.kind === 'halves') {
    const half = index % 2 === 0 ? timing.odds : timing.evens;
    const spoken = [words, half.words].filter((some) => some !== '').join(' ');
    return { words: spoken, timing: half.timing, hold: half.hold ?? hold };
  }
  return { words, timing, hold };
}

function valueOfRep<Value>(reps: readonly Value[], index: number): Value {
  const value = reps[index];
  if (value === undefined) throw new RangeError(`a list of ${reps.length} has no value for rep ${index + 1}`);
  return value;
}

function swimOf(
  item: ScenarioSet | ScenarioBlock,
  distance: number,
  index: number,
  scenario: Scenario,
  laneIndex: number,
  partName: string,
): Swim {
  const lane = laneAt(scenario, laneIndex);
  const terms = termsOf(item, index);
  const target = targetFor(terms.hold, distance, lane, laneIndex);
  const expected =
    target === null
      ? times(overDistance(cruiseOf(lane, scenario), distance), factorOf(terms.words, partName))
      : exact(target);
  return {
    distance,
    words: terms.words,
    interval: intervalFor(terms.timing, distance, index, expected, scenario, laneIndex),
    target,
    isHeld: terms.hold !== null,
    byRest: terms.timing.kind === 'rest',
    onAssumedBase: restsOnAssumedBase(terms, lane, laneIndex),
    expected,
  };
}

function restsOnAssumedBase({ timing, hold }: RepTerms, lane: ScenarioLane, laneIndex: number): boolean {
  if (lane.base !== null || lane.css !== null) return false;
  if (timing.kind === 'interval') return valueFor(timing.lanes, laneIndex).kind === 'base';
  return hold === null;
}

/** By css in a lane that has none it is 0, which no line may have. */
function intervalFor(
  timing: RepTerms['timing'],
  distance: number,
  index: number,
  expected: Exact,
  scenario: Scenario,
  laneIndex: number,
): number | null {
  const grid = scenario.grid * 1000;
  if (timing.kind === 'untimed') return null;
  if (timing.kind === 'rest') return upTo(grid, plus(expected, exact(valueFor(timing.lanes, laneIndex))));
  const word = valueFor(timing.lanes, laneIndex);
  const lane = laneAt(scenario, laneIndex);
  if (word.kind === 'time') return word.ms + index * timing.step;
  const pace = word.kind === 'base' ? baseOf(lane, scenario) : lane.css;
  if (pace === null) return 0;
  return upTo(grid, plus(overDistance(exact(pace), distance), exact(word.plus))) + index * timing.step;
}

function targetFor(
  hold: PerLane<HoldWord> | null,
  distance: number,
  lane: ScenarioLane,
  laneIndex: number,
): number | null {
  if (hold === null) return null;
  const word = valueFor(hold, laneIndex);
  if (word.kind === 'time') return word.ms;
  // A lane without a css may stand in a `hold css` line only where it sits the set out.
  if (lane.css === null) return null;
  return nearest(100, overDistance(exact(lane.css + word.plus), distance));
}

function cruiseOf(lane: ScenarioLane, scenario: Scenario): Exact {
  if (lane.css !== null) return times(exact(lane.css), exact(105, 100));
  const base = exact(baseOf(lane, scenario));
  const easier = plus(base, exact(-10_000));
  const half = times(base, exact(1, 2));
  return isBelow(easier, half) ? half : easier;
}

/** A pace per 100 over a distance in tenths. */
function overDistance(pace: Exact, distance: number): Exact {
  return times(pace, exact(distance, 1000));
}

const SLOW_WORDS: readonly (readonly [words: readonly string[], hundredths: number])[] = [
  [['kick', 'kicks', 'kicking'], 140],
  [['drill', 'drills', 'scull', 'sculls', 'sculling'], 125],
  [['easy', 'swim-down', 'warm-down', 'cool-down'], 110],
];

function factorOf(words: string, partName: string): Exact {
  const spoken = wholeWords(words);
  const name = wholeWords(partName).join(' ');
  if (['swim-down', 'warm-down', 'cool-down'].includes(name)) spoken.push(name);
  for (const [slow, hundredths] of SLOW_WORDS) {
    if (slow.some((word) => spoken.includes(word))) return exact(hundredths, 100);
  }
  return exact(1);
}

/** In small letters; "swim down" counts as the one word "swim-down". */
function wholeWords(words: string): string[] {
  const joined = words.toLowerCase().replace(/(^|[^a-z-])(swim|warm|cool) +down(?![a-z-])/g, '$1$2-down');
  return joined.split(/[^a-z-]+/).filter((word) => word !== '');
}

function laneAt(scenario: Scenario, laneIndex: number): ScenarioLane {
  const lane = scenario.lanes[laneIndex];
  if (!lane) throw new RangeError(`no lane at index ${laneIndex}`);
  return lane;
}
