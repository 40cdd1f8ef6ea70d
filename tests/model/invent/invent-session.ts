/*
 * Random sessions that the notation allows: every kind of line, small enough that a run of them is
 * soon over, with the unusual (holes in lane numbers, ladders, zeros in lists, decimals) not rare.
 */

import { inventNote, inventPart } from './invent-part.ts';
import type { Random } from './random.ts';
import {
  everyItem,
  hasItems,
  isNote,
  isSwum,
  ofLanes,
  repsWritten,
  type Scenario,
  type ScenarioLane,
  type ScenarioPart,
} from '../scenario.ts';

const POOLS: Scenario['pool'][] = [
  { hundredths: 2500, unit: 'm' },
  { hundredths: 5000, unit: 'm' },
  { hundredths: 2500, unit: 'yd' },
  { hundredths: 3333, unit: 'm' },
  { hundredths: 2000, unit: 'm' },
  { hundredths: 1667, unit: 'yd' },
  { hundredths: 3050, unit: 'm' },
];

const TITLES = ['Harbour squad, Thursday', 'Evening lanes', 'Sprint group', 'Masters and juniors'];
const HEADINGS = ['Warm-up', 'Pull', 'Main set', 'Drills and turns', 'Swim-down', 'Cool down', 'Second half', 'Kick'];
const NAMES = ['Ana', 'Bram', 'Chidi', 'Dora', 'Emre', 'Fay Lund', "Gil O'Dea", 'Hana'];

/** A valid session of 1 to 6 lanes and 1 to 5 parts. */
export function inventSession(random: Random): Scenario {
  const frame = inventFrame(random);
  for (;;) {
    const parts = inventParts(random, frame);
    const scenario = { ...frame, parts };
    if (parts.some((part) => everyItem(part.items).some(isSwum)) && !isTooLong(scenario)) return scenario;
  }
}

/** Parts with headings to follow others, for a rewrite; the last may be empty, and there may be none. */
export function inventMoreParts(random: Random, frame: Scenario, atMost: number): ScenarioPart[] {
  const count = random.whole(0, atMost);
  return Array.from({ length: count }, () => inventPart(random, frame, random.pick(HEADINGS)));
}

function inventFrame(random: Random): Scenario {
  const start = random.chance(0.5) ? random.whole(0, 1439) : null;
  const finish = random.chance(0.5) ? ((start ?? 0) + random.whole(1, random.chance(0.8) ? 60 : 1439)) % 1440 : null;
  return {
    title: random.chance(0.8) ? random.pick(TITLES) : null,
    pool: random.chance(0.5) ? { hundredths: 2500, unit: 'm' } : random.pick(POOLS),
    start,
    finish,
    gap: random.chance(0.6) ? 5 : random.pick([1, 3, 10, 15]),
    between: inventBetween(random),
    startOn: random.chance(0.4) ? 5 : random.pick([1, 10, 15, 30, 60]),
    grid: random.chance(0.6) ? 5 : random.pick([1, 10]),
    lanes: inventLanes(random),
    notes: random.chance(0.2) ? Array.from({ length: random.whole(1, 2) }, () => inventNote(random)) : [],
    parts: [],
  };
}

function inventBetween(random: Random): Scenario['between'] {
  const ms = random.chance(0.3) ? 60_000 : random.pick([0, 5000, 12_500, 20_000, 45_000, 90_000]);
  return { ms, auto: random.chance(0.5) };
}

function inventLanes(random: Random): ScenarioLane[] {
  const count = random.weighted([
    [25, 1],
    [25, 2],
    [20, 3],
    [10, 4],
    [10, 5],
    [10, 6],
  ]);
  const inRow = Array.from({ length: count }, (_none, index) => index + 1);
  const scattered = random.shuffled(Array.from({ length: 21 }, (_none, index) => index)).slice(0, count);
  const numbers = random.chance(0.7) ? inRow : scattered.sort((a, b) => a - b);
  return numbers.map((number) => inventLane(random, number));
}

function inventLane(random: Random, number: number): ScenarioLane {
  const kind = random.weighted([
    [30, 'base'],
    [30, 'css'],
    [20, 'both'],
    [20, 'none'],
  ] as const);
  const pace = random.whole(10, 26) * 5000 + (random.chance(0.2) ? random.whole(1, 49) * 100 : 0);
  const swimmers = random.chance(0.3) ? 1 : random.whole(1, 7);
  return {
    number,
    base: kind === 'base' || kind === 'both' ? pace + random.pick([0, 5000, 10_000]) : null,
    css: kind === 'css' || kind === 'both' ? pace : null,
    swimmers,
    names: random.chance(0.25) ? random.shuffled(NAMES).slice(0, swimmers) : [],
    gap: random.chance(0.25) ? random.pick([1, 5, 10, 20]) : null,
  };
}

function inventParts(random: Random, frame: Scenario): ScenarioPart[] {
  // Without a title the first heading would be taken for one.
  if (frame.title === null) return [inventPart(random, frame, null)];
  const count = random.whole(1, 5);
  return Array.from({ length: count }, (_none, index) => {
    const heading = index === 0 && random.chance(0.15) ? null : random.pick(HEADINGS);
    return inventPart(random, frame, heading);
  });
}

/** Rounds in rounds can make a small text long; such sessions only cost time. */
export function isTooLong(scenario: Scenario): boolean {
  const leaves = (items: ScenarioPart['items'], own: Scenario): number =>
    items.reduce((sum, item) => {
      if (item.kind === 'lanes') return sum + leaves(item.items, ofLanes(own, item.lanes));
      if (hasItems(item)) return sum + item.times * leaves(item.items, own);
      if (item.kind === 'set')
        return sum + Math.max(...own.lanes.map((_lane, index) => repsWritten(item.shape, index)));
      return isNote(item) ? sum : sum + 3;
    }, 0);
  return scenario.parts.reduce((sum, part) => sum + leaves(part.items, scenario), 0) > 120;
}
