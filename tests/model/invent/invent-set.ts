/*
 * Random sets and timed blocks. What the notation forbids (an interval of nothing or of more than an
 * hour, a target without a css, a set that nobody swims) is drawn again.
 */

import { swimsInBlock, swimsOf, type Swim } from '../timetable/pace-model.ts';
import type { Random } from './random.ts';
import {
  repsWritten,
  type HoldWord,
  type IntervalWord,
  type PerLane,
  type PlainTiming,
  type Scenario,
  type ScenarioBlock,
  type ScenarioHalf,
  type ScenarioSet,
  type ScenarioTiming,
  type SetShape,
} from '../scenario.ts';

export const SET_WORDS = [
  'free',
  'steady',
  'fast',
  'back and free by 25',
  'pull, buoy',
  'odds fast',
  'odds fast, evens easy',
  'kick',
  'Kicking sideways',
  'kick-board out',
  'drill',
  'sculling front',
  'easy choice',
  'choice',
  'swim-down',
  'warm down loosely',
  'build to fast',
  'swim 200 kick',
  'at 200 pace',
  'pull 100 pace or faster',
  'as 50 kick 50 drill',
  'HR 150',
  'first 100 easy',
  'fast 75 % of it',
  'fast 50, easy 50',
  'count 60 strokes',
  'on land first',
  '',
];
/** Of a set of odds and evens, what both have in common. */
const COMMON_WORDS = ['free', 'steady', 'pull, buoy', 'kick', 'drill', 'free by 25', 'swim 200 free', '', ''];
const HALF_WORDS = ['fast', 'easy', 'steady', 'kick', 'sculling front', 'build to fast', 'swim 100 hard', '', ''];
/** Words that can only stand behind an interval and a comma. */
export const LATE_WORDS = ['25 fast', '12.5 under water'];

export function inventSet(random: Random, frame: Scenario, untimed: boolean): ScenarioSet {
  for (;;) {
    const set = draftOfSet(random, frame, untimed);
    const lanes = frame.lanes.map((_lane, index) => swimsOf(set, frame, index, ''));
    // Odds and evens must both be right even where only the first rep is swum.
    const atLeastTwo = frame.lanes.flatMap((_lane, index) => swimsOf(withTwoReps(set), frame, index, ''));
    if (lanes.some((swims) => swims.length > 0) && atLeastTwo.every(isAllowed)) return set;
  }
}

function draftOfSet(random: Random, frame: Scenario, untimed: boolean): ScenarioSet {
  const kind = untimed
    ? 'untimed'
    : random.weighted([
        [70, 'plain'],
        [12, 'listed'],
        [18, 'halves'],
      ] as const);
  const isListed = kind === 'listed' || (kind === 'plain' && random.chance(0.08));
  const shape = inventShape(random, frame, isListed ? 'as many reps' : kind === 'halves' ? 'no ladder' : 'any');
  const isHeldByRep = isListed && (kind === 'plain' || random.chance(0.2));
  const timing = inventTimingOf(kind, shape, random, frame);
  const canBeLate = timing.kind === 'listed' || (timing.kind === 'interval' && timing.step === 0);
  const hasOwnHolds = timing.kind === 'halves' && (timing.odds.hold ?? timing.evens.hold) !== null;
  return {
    kind: 'set',
    line: 0,
    shape,
    words: random.pick(kind === 'halves' ? COMMON_WORDS : canBeLate && random.chance(0.1) ? LATE_WORDS : SET_WORDS),
    timing,
    hold: isHeldByRep
      ? { reps: everyRep(shape, frame).map(() => inventHolds(random, frame, random.chance(0.6))) }
      : hasOwnHolds
        ? null
        : inventHold(random, frame, untimed ? 0.15 : 0.25),
  };
}

function inventTimingOf(
  kind: 'untimed' | 'plain' | 'listed' | 'halves',
  shape: SetShape,
  random: Random,
  frame: Scenario,
): ScenarioTiming {
  switch (kind) {
    case 'untimed':
      return { kind };
    case 'plain':
      return inventTiming(random, frame);
    case 'listed': {
      const byPace = random.chance(0.3);
      const reps = everyRep(shape, frame).map(() => inventIntervals(random, frame, byPace, 0.2));
      return { kind, reps };
    }
    case 'halves': {
      const held = random.chance(0.3);
      return { kind, odds: inventHalf(random, frame, held), evens: inventHalf(random, frame, held) };
    }
  }
}

function inventHalf(random: Random, frame: Scenario, held: boolean): ScenarioHalf {
  const timing = inventTiming(random, frame);
  return {
    words: random.pick(HALF_WORDS),
    timing: timing.kind === 'interval' ? { ...timing, step: 0 } : timing,
    hold: held ? inventHold(random, frame, 0.7) : null,
  };
}

/** A list with something in it for each rep that the lanes swim. */
function everyRep(shape: SetShape, frame: Scenario): readonly null[] {
  return Array<null>(Math.max(...frame.lanes.map((_lane, index) => repsWritten(shape, index)))).fill(null);
}

function withTwoReps(set: ScenarioSet): ScenarioSet {
  const { shape } = set;
  if (set.timing.kind !== 'halves' || shape.kind === 'ladder') return set;
  const two = (count: number): number => (count === 0 ? 0 : 2);
  const { counts } = shape;
  const atLeastTwo = 'same' in counts ? { same: two(counts.same) } : { each: counts.each.map(two) };
  return { ...set, shape: { ...shape, counts: atLeastTwo } };
}

export function inventBlock(random: Random, frame: Scenario): ScenarioBlock {
  for (;;) {
    const block: ScenarioBlock = {
      kind: 'block',
      line: 0,
      ms: random.chance(0.7) ? random.whole(3, 12) * 30_000 : shortTime(random),
      distances: perLane(random, frame, 0.25, () => inventDistance(random, frame, true)),
      words: random.pick(SET_WORDS),
      timing: inventTiming(random, frame),
      hold: inventHold(random, frame, 0.25),
    };
    // A part's name can make its swims slower, and fewer of them fit.
    const lanes = frame.lanes.flatMap((_lane, index) =>
      ['', 'swim-down'].map((partName) => swimsInBlock(block, frame, index, partName)),
    );
    const everyLaneSwims = lanes.every((swims) => swims.length > 0 && swims.length <= 20);
    if (lanes.flat().every(isAllowed) && everyLaneSwims) return block;
  }
}

function isAllowed({ interval, target, isHeld }: Swim): boolean {
  if (isHeld && (target === null || target <= 0)) return false;
  // A minute less than the hour leaves room for the factor of a part's name in `rest` lines.
  return interval === null || (interval > 0 && interval <= 3_540_000);
}

function inventShape(random: Random, frame: Scenario, kind: 'any' | 'no ladder' | 'as many reps'): SetShape {
  if (kind !== 'no ladder' && random.chance(0.15)) {
    const rungs = Array.from({ length: random.whole(2, 5) }, () => inventDistance(random, frame, true));
    return { kind: 'ladder', rungs };
  }
  const inEveryLane = random.whole(2, 5);
  const count = (): number => (kind === 'as many reps' ? inEveryLane : random.whole(1, 5));
  const counts = perLane(random, frame, 0.3, (listed) => (listed && random.chance(0.3) ? 0 : count()));
  const distances = perLane(random, frame, 0.2, (listed) => inventDistance(random, frame, listed));
  return { kind: 'repeat', counts, distances };
}

/** In tenths; below one length only where a unit can be written beside it. */
function inventDistance(random: Random, frame: Scenario, atLeastOneLength: boolean): number {
  const lengths = random.pick([1, 1, 2, 2, 2, 3, 4, 4, 6]);
  const round = Math.ceil((frame.pool.hundredths * lengths) / 100) * 10;
  const odd = random.pick([500, 750, 1000, 1500, 625, 333, 400]);
  const part = random.pick([125, 150, 50, 100]);
  const distance = random.weighted([
    [80, round],
    [12, odd],
    [8, part],
  ]);
  return atLeastOneLength && distance * 10 < frame.pool.hundredths ? round : distance;
}

function inventTiming(random: Random, frame: Scenario): PlainTiming {
  if (random.chance(0.2)) {
    return {
      kind: 'rest',
      lanes: perLane(random, frame, 0.3, () => random.pick([3000, 5000, 10_000, 15_000, 12_500, 30_000])),
    };
  }
  const lanes = inventIntervals(random, frame, random.chance(0.45), 0.4);
  const step = random.chance(0.15) ? random.pick([-10_000, -5000, -2500, 5000, 10_000, 500]) : 0;
  return { kind: 'interval', lanes, step };
}

function inventIntervals(random: Random, frame: Scenario, byPace: boolean, listed: number): PerLane<IntervalWord> {
  const byCss = random.chance(0.25) && frame.lanes.some((lane) => lane.css !== null);
  return perLane(random, frame, listed, () => inventInterval(random, byPace || random.chance(0.1), byCss));
}

function inventInterval(random: Random, byPace: boolean, byCss: boolean): IntervalWord {
  if (byPace) {
    return {
      kind: byCss ? 'css' : 'base',
      plus: random.pick([0, 0, 0, 5000, 10_000, -5000, -10_000, 2500]),
    };
  }
  const ms = random.weighted([
    [70, random.whole(4, 30) * 5000],
    [15, random.whole(11, 99) * 1000],
    [10, random.whole(101, 1500) * 100],
    [5, random.whole(1, 30) * 100],
  ]);
  return { kind: 'time', ms };
}

function inventHold(random: Random, frame: Scenario, probability: number): PerLane<HoldWord> | null {
  return random.chance(probability) ? inventHolds(random, frame, random.chance(0.6)) : null;
}

function inventHolds(random: Random, frame: Scenario, mayBeByCss: boolean): PerLane<HoldWord> {
  const byCss = mayBeByCss && frame.lanes.some((lane) => lane.css !== null);
  return perLane(random, frame, 0.3, (): HoldWord => {
    if (byCss) return { kind: 'css', plus: random.pick([0, 0, 3000, -2000, 500]) };
    return { kind: 'time', ms: random.chance(0.7) ? random.whole(15, 90) * 1000 : random.whole(150, 900) * 100 };
  });
}

function perLane<Value>(
  random: Random,
  frame: Scenario,
  listed: number,
  make: (listed: boolean) => Value,
): PerLane<Value> {
  if (frame.lanes.length < 2 || !random.chance(listed)) return { same: make(false) };
  return { each: frame.lanes.map(() => make(true)) };
}

export function shortTime(random: Random): number {
  return random.chance(0.8) ? random.whole(1, 30) * 10_000 : random.whole(10, 1200) * 100;
}
