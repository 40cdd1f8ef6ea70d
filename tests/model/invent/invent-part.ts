/*
 * Random lines of a part, in rounds and for some lanes too. What a line for some lanes holds is
 * invented as if there were no other lanes.
 */

import { inventBlock, inventSet, SET_WORDS, shortTime } from './invent-set.ts';
import type { Random } from './random.ts';
import {
  isNote,
  ofLanes,
  type Scenario,
  type ScenarioItem,
  type ScenarioNote,
  type ScenarioPart,
} from '../scenario.ts';

const PAUSE_WORDS = ['turns: push off under the waves', 'drinks', '', 'next set at 2:00, fins on', 'talk about 4 x 50'];
const NOTE_WORDS = [
  'mind the hands',
  'paddles, pull buoy',
  '4 x 50 free @ 1:00',
  'lane 1: new today',
  'rest 15 between',
  'from 1.30 to 1:30',
  'start 19:30',
  '3 rounds',
];

/** Where a line stands: in how many rounds, and whether it is one for some lanes alone. */
interface Around {
  readonly rounds: number;
  readonly someLanes: boolean;
}

/** One part, empty now and then. */
export function inventPart(random: Random, frame: Scenario, heading: string | null): ScenarioPart {
  const count = heading !== null && random.chance(0.06) ? 0 : random.whole(1, 4);
  const items = inventItems(random, frame, count, { rounds: 0, someLanes: false });
  if (heading !== null) return { heading, items: count === 0 && random.chance(0.3) ? [inventNote(random)] : items };
  // A note above the first set would be one of the session's.
  const first = items.findIndex((item) => !isNote(item));
  return first < 0 ? inventPart(random, frame, heading) : { heading, items: items.slice(first) };
}

function inventItems(random: Random, frame: Scenario, count: number, around: Around): ScenarioItem[] {
  return Array.from({ length: count }, () => inventItem(random, frame, around));
}

/** One line of a part, with all that stands under it. */
export function inventItem(
  random: Random,
  frame: Scenario,
  around: Around = { rounds: 0, someLanes: false },
): ScenarioItem {
  const forAll = around.someLanes ? 0 : 1;
  const kind = random.weighted([
    [50, 'set'],
    [7, 'untimed'],
    [8, 'block'],
    [6, 'timed-swim'],
    [around.rounds < 3 ? 16 : 0, 'rounds'],
    [9 * forAll, 'lanes'],
    [5 * forAll, 'talk'],
    [6 * forAll, 'break'],
    [6 * forAll, 'note'],
  ] as const);
  switch (kind) {
    case 'set':
      return inventSet(random, frame, false);
    case 'untimed':
      return inventSet(random, frame, true);
    case 'block':
      return inventBlock(random, frame);
    case 'timed-swim':
      return { kind, line: 0, ms: shortTime(random), words: random.pick(SET_WORDS) };
    case 'rounds':
      return inventRounds(random, frame, around);
    case 'lanes':
      return inventSomeLanes(random, frame, around);
    case 'talk':
    case 'break':
      return { kind, line: 0, ms: shortTime(random), words: random.pick(PAUSE_WORDS) };
    case 'note':
      return inventNote(random);
  }
}

export function inventNote(random: Random): ScenarioNote {
  return { kind: random.chance(0.5) ? 'note' : 'kit', line: 0, words: random.pick(NOTE_WORDS) };
}

function inventRounds(random: Random, frame: Scenario, around: Around): ScenarioItem {
  const times = random.whole(2, 4);
  const set = inventSet(random, frame, random.chance(0.1));
  const isPlain = set.shape.kind === 'repeat' && 'same' in set.shape.counts && 'same' in set.shape.distances;
  if (isPlain && random.chance(0.25)) return { kind: 'rounds', line: 0, times, items: [set], oneLine: true };
  for (;;) {
    const items = inventItems(random, frame, random.whole(1, 3), { ...around, rounds: around.rounds + 1 });
    if (!items.every(isNote)) return { kind: 'rounds', line: 0, times, items, oneLine: false };
  }
}

function inventSomeLanes(random: Random, frame: Scenario, around: Around): ScenarioItem {
  const indexes = frame.lanes.map((_lane, index) => index);
  const lanes = random
    .shuffled(indexes)
    .slice(0, random.whole(1, Math.max(1, indexes.length - (random.chance(0.8) ? 1 : 0))));
  const rising = lanes.sort((a, b) => a - b);
  const oneLine = random.chance(0.6);
  const inside = { ...around, someLanes: true };
  const items = inventItems(random, ofLanes(frame, rising), oneLine ? 1 : random.whole(1, 3), inside);
  return { kind: 'lanes', line: 0, lanes: rising, items, oneLine };
}
