/*
 * What one line of a session asks of each lane: its reps with interval, target and expected time, without their place
 * in the hour.
 */

import {
  swims,
  type Lane,
  type Session,
  type SwimSet,
  type TimedBlock,
  type TimedSwim,
  type Way,
} from '../session/session.ts';
import type { Rep } from './plan.ts';
import type { Tenths } from '../units.ts';
import { expectedSwim, factorOf, firstInterval, targetOf } from '../session/lanes/pace.ts';
import { add, ceilTo, multiply, ratio, roundTo } from '../ratio.ts';

/** What one rep asks, without its place; reps that ask the same may share it. */
export type Swim = Omit<Rep, 'set' | 'offset' | 'rep' | 'of'>;

export type SwimItem = SwimSet | TimedBlock | TimedSwim;

/** The most reps that a timed block writes out. */
const MOST_REPS = 500;

/** A list for each lane, in lane order, with a swim for every rep; empty if the lane sits the set out. */
export function swimsOf(item: SwimItem, partName: string, session: Session): readonly (readonly Swim[])[] {
  return session.lanes.map((lane, index) => {
    if (!swims(item.lanes, index)) return [];
    if (item.kind === 'timed-swim') return [swimByTime(item)];
    const pace = { lane, index, partName, grid: session.grid };
    if (item.kind === 'block') return blockSwims(item, pace);
    const asked = distancesOf(item, index);
    if (asked.times === 0) return [];
    return item.timing.kind === 'untimed' ? [untimedSwim(item, asked, pace)] : setSwims(item, asked, pace);
  });
}

/** Distances in the order in which they are swum (the rungs of a ladder, or one distance), and how often. */
export interface Distances {
  readonly distances: readonly Tenths[];
  /** 0 if the lane sits the set out. */
  readonly times: number;
}

/** What a lane swims of a set. laneIndex: its place in lane order. Not written out: 500 untimed reps are one leave. */
export function distancesOf({ reps, lanes }: SwimSet, laneIndex: number): Distances {
  if (reps.kind === 'ladder') return { distances: reps.distances, times: swims(lanes, laneIndex) ? 1 : 0 };
  return { distances: [reps.distances[laneIndex]!], times: reps.counts[laneIndex]! };
}

interface Pace {
  readonly lane: Lane;
  /** In lane order. */
  readonly index: number;
  readonly partName: string;
  readonly grid: number;
}

function swimByTime({ time, words }: TimedSwim): Swim {
  // A swim by time takes exactly its time.
  return { words, estimated: false, distance: 0, interval: time, leftover: 0, target: null, expected: time };
}

function setSwims(set: SwimSet, { distances, times }: Distances, pace: Pace): readonly Swim[] {
  const ways = set.ways ?? [set];
  const swimmers = ways.map((way) => swimmer(way, timedBy(way), pace));
  return Array.from({ length: distances.length * times }, (_, rep) =>
    swimmers[rep % swimmers.length]!(distances[rep % distances.length]!, rep),
  );
}

/** Of a set that is not untimed. */
function timedBy({ timing }: Way): Timed {
  if (timing.kind === 'untimed') throw new Error('an untimed set has no reps that could differ');
  return timing;
}

/**
 * As many reps as fit in the block's time; the last one carries the time left over. At least one fits, because a text
 * in which none fits is a fault.
 */
function blockSwims(block: TimedBlock, pace: Pace): readonly Swim[] {
  const distance = block.distances[pace.index]!;
  const swimAt = swimmer(block, block.timing, pace);
  const reps: Swim[] = [];
  let used = 0;
  while (reps.length < MOST_REPS) {
    const next = swimAt(distance, reps.length);
    if (used + next.interval > block.time) break;
    used += next.interval;
    reps.push(next);
  }
  const last = reps[reps.length - 1]!;
  return [...reps.slice(0, -1), { ...last, leftover: block.time - used }];
}

type Timed = TimedBlock['timing'];

/** Gives a function for rep `index` (from 0). It calculates again only when the distance changes. */
function swimmer(way: Way, timing: Timed, pace: Pace): (distance: Tenths, index: number) => Swim {
  const step = timing.kind === 'interval' ? timing.step : 0;
  let known: Swim | null = null;
  return (distance, index) => {
    if (known?.distance !== distance) known = firstSwim(way, timing, distance, pace);
    return step === 0 ? known : { ...known, interval: known.interval + index * step };
  };
}

function firstSwim({ words, hold }: Way, timing: Timed, distance: Tenths, pace: Pace): Swim {
  const target = targetOf(pace.lane, hold?.[pace.index], distance);
  const expected = expectedSwim(pace.lane, distance, factorOf(words, pace.partName), target);
  const interval = firstInterval(timing, pace.index, pace.lane, distance, expected, pace.grid);
  const estimated = timing.kind === 'rest';
  return { words, estimated, distance, interval, leftover: 0, target, expected: roundTo(1, expected) };
}

/** One leave for the whole set; its length is the sum of the expected times, rounded up to the grid once. */
function untimedSwim({ words, hold }: SwimSet, { distances, times }: Distances, pace: Pace): Swim {
  const factor = factorOf(words, pace.partName);
  const targets = distances.map((distance) => targetOf(pace.lane, hold?.[pace.index], distance));
  const once = distances
    .map((distance, index) => expectedSwim(pace.lane, distance, factor, targets[index]!))
    .reduce(add, ratio(0));
  const whole = multiply(once, ratio(times));
  return {
    words,
    estimated: true,
    distance: times * distances.reduce((sum, distance) => sum + distance, 0),
    interval: ceilTo(pace.grid, whole),
    leftover: 0,
    // If the reps of a ladder have different targets, there is no single one.
    target: targets.every((target) => target === targets[0]) ? targets[0]! : null,
    expected: roundTo(1, whole),
  };
}
