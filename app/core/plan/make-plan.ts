/*
 * Makes the plan of a session: writes rounds out and moves a cursor for every lane through each part. A stretch ends
 * wherever lanes come together: at the end of a part, before and after a talk or break, and after an untimed set. What
 * a set asks of a lane is worked out once, however many rounds it has, so the work grows with the leaves only.
 */

import type { Item, Part, Pause, Rounds, Session } from '../session/session.ts';
import type { Plan, Rep, Round, Source, Stretch, PlannedSet } from './plan.ts';
import type { Millis } from '../units.ts';
import { swimsOf, type Swim, type SwimItem } from './swims.ts';

/** What is kept from line to line on the way through a session. */
interface Walk {
  readonly session: Session;
  readonly stretches: Stretch[];
  /** For every set met, one list for each lane, the same in all rounds. */
  readonly swims: Map<SwimItem, readonly (readonly Swim[])[]>;
  /** The stretch being filled: a list of reps for each lane, and the position of the lane's cursor. */
  lanes: LaneDraft[];
  /** The number of passages through sets so far. */
  order: number;
}

interface LaneDraft {
  readonly reps: Rep[];
  length: Millis;
}

interface Place {
  readonly part: Part;
  readonly partIndex: number;
}

/**
 * The plan of a session without faults; `source` is only passed on. `known`: stretches of its first parts that were
 * planned before by this function.
 */
export function makePlan(session: Session, source: Source, known: readonly Stretch[] = []): Plan {
  const order = nextOrder(known);
  const walk: Walk = { session, stretches: [...known], swims: new Map(), lanes: emptyLanes(session), order };
  const from = known.length === 0 ? 0 : known[known.length - 1]!.partIndex + 1;
  session.parts.forEach((part, partIndex) => {
    if (partIndex < from) return;
    const place = { part, partIndex };
    walkItems(walk, place, part.items, []);
    closeStretch(walk, place, false);
  });
  return { source, session, stretches: walk.stretches };
}

function walkItems(walk: Walk, place: Place, items: readonly Item[], rounds: readonly Round[]): void {
  for (const item of items) {
    switch (item.kind) {
      case 'rounds':
        walkRounds(walk, place, item, rounds);
        break;
      case 'lanes':
        walkItems(walk, place, item.items, rounds);
        break;
      case 'talk':
      case 'break':
        addPause(walk, place, item, rounds);
        break;
      case 'set':
      case 'block':
      case 'timed-swim':
        addSet(walk, place, item, rounds);
    }
  }
}

function walkRounds(walk: Walk, place: Place, item: Rounds, outer: readonly Round[]): void {
  for (let round = 1; round <= item.times; round++) {
    walkItems(walk, place, item.items, [...outer, { line: item.line, round, of: item.times }]);
  }
}

function addPause(walk: Walk, place: Place, pause: Pause, rounds: readonly Round[]): void {
  closeStretch(walk, place, false);
  walk.stretches.push({
    partIndex: place.partIndex,
    part: place.part.name,
    kind: pause.kind,
    line: pause.line,
    words: pause.words,
    time: pause.time,
    rounds,
    lanes: [],
    untimed: false,
  });
}

function addSet(walk: Walk, place: Place, item: SwimItem, rounds: readonly Round[]): void {
  const untimed = item.kind === 'set' && item.timing.kind === 'untimed';
  const set: PlannedSet = {
    line: item.line,
    order: walk.order++,
    kind: item.kind,
    words: item.words,
    rounds,
    estimated: isEstimated(item),
    untimed,
  };
  let swims = walk.swims.get(item);
  if (!swims) {
    swims = swimsOf(item, place.part.name, walk.session);
    walk.swims.set(item, swims);
  }
  swims.forEach((list, index) => addReps(walk.lanes[index]!, set, list));
  if (untimed) closeStretch(walk, place, true);
}

function isEstimated(item: SwimItem): boolean {
  if (item.kind === 'timed-swim') return false;
  const ways = (item.kind === 'set' && item.ways) || [item];
  return ways.some(({ timing }) => timing.kind !== 'interval');
}

function addReps(lane: LaneDraft, set: PlannedSet, swims: readonly Swim[]): void {
  const of = swims.length;
  let offset = lane.length;
  for (let index = 0; index < of; index++) {
    const { words, estimated, distance, interval, leftover, target, expected } = swims[index]!;
    const rep = index + 1;
    lane.reps.push({ set, words, estimated, rep, of, distance, offset, interval, leftover, target, expected });
    offset += interval + leftover;
  }
  lane.length = offset;
}

/** Ends the stretch being filled, if any lane swims in it. */
function closeStretch(walk: Walk, place: Place, untimed: boolean): void {
  if (walk.lanes.every(({ reps }) => reps.length === 0)) return;
  walk.stretches.push({
    partIndex: place.partIndex,
    part: place.part.name,
    kind: 'swim',
    line: 0,
    words: '',
    time: 0,
    rounds: [],
    lanes: walk.lanes,
    untimed,
  });
  walk.lanes = emptyLanes(walk.session);
}

/** The number of the passage after the last of these stretches. */
function nextOrder(stretches: readonly Stretch[]): number {
  const swim = stretches.filter(({ kind }) => kind === 'swim').pop();
  const last = (swim?.lanes ?? []).map(({ reps }) => reps[reps.length - 1]?.set.order ?? -1);
  return Math.max(-1, ...last) + 1;
}

function emptyLanes(session: Session): LaneDraft[] {
  return session.lanes.map(() => ({ reps: [], length: 0 }));
}
