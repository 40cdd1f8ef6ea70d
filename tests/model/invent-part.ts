/*
 * Random lines of a part. What notation.md forbids (an interval of nothing or of more than an hour,
 * a target without a css, a set that nobody swims) is drawn again.
 */

import { swimsInBlock, swimsOf, type Swim } from './pace-model.ts';
import type { Random } from './random.ts';
import type {
  HoldWord,
  IntervalWord,
  PerLane,
  Scenario,
  ScenarioBlock,
  ScenarioItem,
  ScenarioPart,
  ScenarioSet,
  ScenarioTiming,
  SetShape,
} from './scenario.ts';

const WORDS = [
  'free',
  'steady',
  'fast',
  'back and free by 25',
  'pull, buoy',
  'odds fast',
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
  '',
];
const PAUSE_WORDS = ['turns: push off under the waves', 'drinks', '', 'next set at 2:00, fins on', 'talk about 4 x 50'];

/** One part, empty now and then. */
export function inventPart(random: Random, frame: Scenario, heading: string | null): ScenarioPart {
  const count = heading !== null && random.chance(0.06) ? 0 : random.whole(1, 4);
  return { heading, items: inventItems(random, frame, count, 0) };
}

function inventItems(random: Random, frame: Scenario, count: number, depth: number): ScenarioItem[] {
  return Array.from({ length: count }, () => inventItem(random, frame, depth));
}

/** One line of a part, rounds with all that stands under them; `depth` counts the rounds around it. */
export function inventItem(random: Random, frame: Scenario, depth: number): ScenarioItem {
  const kind = random.weighted([
    [50, 'set'],
    [7, 'untimed'],
    [8, 'block'],
    [6, 'timed-swim'],
    [depth < 3 ? 16 : 0, 'rounds'],
    [5, 'talk'],
    [6, 'break'],
  ] as const);
  switch (kind) {
    case 'set':
      return inventSet(random, frame, false);
    case 'untimed':
      return inventSet(random, frame, true);
    case 'block':
      return inventBlock(random, frame);
    case 'timed-swim':
      return { kind, line: 0, ms: shortTime(random), words: random.pick(WORDS) };
    case 'rounds':
      return inventRounds(random, frame, depth);
    case 'talk':
    case 'break':
      return { kind, line: 0, ms: shortTime(random), words: random.pick(PAUSE_WORDS) };
  }
}

function inventRounds(random: Random, frame: Scenario, depth: number): ScenarioItem {
  const times = random.whole(2, 4);
  const set = inventSet(random, frame, random.chance(0.1));
  const isPlain = set.shape.kind === 'repeat' && 'same' in set.shape.counts && 'same' in set.shape.distances;
  if (isPlain && random.chance(0.25)) return { kind: 'rounds', line: 0, times, items: [set], oneLine: true };
  const items = inventItems(random, frame, random.whole(1, 3), depth + 1);
  return { kind: 'rounds', line: 0, times, items, oneLine: false };
}

function inventSet(random: Random, frame: Scenario, untimed: boolean): ScenarioSet {
  for (;;) {
    const timing: ScenarioTiming = untimed ? { kind: 'untimed' } : inventTiming(random, frame);
    const set: ScenarioSet = {
      kind: 'set',
      line: 0,
      shape: inventShape(random, frame),
      words: random.pick(WORDS),
      timing,
      hold: inventHold(random, frame, timing),
    };
    const lanes = frame.lanes.map((_lane, index) => swimsOf(set, frame, index, ''));
    const everySwimIsAllowed = lanes.flat().every((swim) => isAllowed(swim));
    const everyTargetIsKnown = lanes.every((swims) => set.hold === null || swims.every((swim) => swim.target !== null));
    if (lanes.some((swims) => swims.length > 0) && everySwimIsAllowed && everyTargetIsKnown) return set;
  }
}

function inventBlock(random: Random, frame: Scenario): ScenarioBlock {
  for (;;) {
    const timing = inventTiming(random, frame);
    const block: ScenarioBlock = {
      kind: 'block',
      line: 0,
      ms: random.chance(0.7) ? random.whole(3, 12) * 30_000 : shortTime(random),
      distances: perLane(random, frame, 0.25, () => inventDistance(random, frame, true)),
      words: random.pick(WORDS),
      timing,
      hold: inventHold(random, frame, timing),
    };
    // A part's name can make its swims slower, and fewer of them fit.
    const lanes = frame.lanes.flatMap((_lane, index) =>
      ['', 'swim-down'].map((partName) => swimsInBlock(block, frame, index, partName)),
    );
    const everySwimIsAllowed = lanes.flat().every((swim) => isAllowed(swim));
    const everyTargetIsKnown = block.hold === null || lanes.flat().every((swim) => swim.target !== null);
    const everyLaneSwims = lanes.every((swims) => swims.length > 0 && swims.length <= 20);
    if (everySwimIsAllowed && everyTargetIsKnown && everyLaneSwims) return block;
  }
}

function isAllowed(swim: Swim): boolean {
  const { interval, target } = swim;
  // A minute less than the hour leaves room for the factor of a part's name in `rest` lines.
  return (interval === null || (interval > 0 && interval <= 3_540_000)) && (target === null || target > 0);
}

function inventShape(random: Random, frame: Scenario): SetShape {
  if (random.chance(0.15)) {
    const rungs = Array.from({ length: random.whole(2, 5) }, () => inventDistance(random, frame, true));
    return { kind: 'ladder', rungs };
  }
  const counts = perLane(random, frame, 0.3, (listed) => (listed && random.chance(0.3) ? 0 : random.whole(1, 5)));
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

function inventTiming(random: Random, frame: Scenario): Exclude<ScenarioTiming, { kind: 'untimed' }> {
  if (random.chance(0.2)) {
    return {
      kind: 'rest',
      lanes: perLane(random, frame, 0.3, () => random.pick([3000, 5000, 10_000, 15_000, 12_500, 30_000])),
    };
  }
  const base = random.chance(0.45);
  const lanes = perLane(random, frame, 0.4, () => inventInterval(random, base || random.chance(0.1)));
  const step = random.chance(0.15) ? random.pick([-10_000, -5000, -2500, 5000, 10_000, 500]) : 0;
  return { kind: 'interval', lanes, step };
}

function inventInterval(random: Random, byBase: boolean): IntervalWord {
  if (byBase) return { kind: 'base', plus: random.pick([0, 0, 0, 5000, 10_000, -5000, -10_000, 2500]) };
  const ms = random.weighted([
    [70, random.whole(4, 30) * 5000],
    [15, random.whole(11, 99) * 1000],
    [10, random.whole(101, 1500) * 100],
    [5, random.whole(1, 30) * 100],
  ]);
  return { kind: 'time', ms };
}

function inventHold(random: Random, frame: Scenario, timing: ScenarioTiming): PerLane<HoldWord> | null {
  if (!random.chance(timing.kind === 'untimed' ? 0.15 : 0.25)) return null;
  const byCss = random.chance(0.6) && frame.lanes.some((lane) => lane.css !== null);
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

function shortTime(random: Random): number {
  return random.chance(0.8) ? random.whole(1, 30) * 10_000 : random.whole(10, 1200) * 100;
}
