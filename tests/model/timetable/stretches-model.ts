/*
 * A scenario's rounds written out into stretches: who swims what, from which offset, and what each
 * stretch waits for. Built item by item, in the order in which a coach would read the session out.
 */

import { exact, plus, upTo, type Exact } from './exact.ts';
import { swimsInBlock, swimsOf, type Swim } from './pace-model.ts';
import {
  hasItems,
  isNote,
  ofLanes,
  type Scenario,
  type ScenarioBlock,
  type ScenarioItem,
  type ScenarioPart,
  type ScenarioPause,
  type ScenarioSet,
  type ScenarioTimedSwim,
} from '../scenario.ts';

/** One leave. A plain object of its own for every lane and every passage, so that a run may change it. */
export interface ModelRep {
  readonly line: number;
  /** Rises through the session, one for every passage through a set: the order of the session is (place, rep). */
  readonly place: number;
  readonly rounds: readonly ModelRound[];
  readonly kind: 'set' | 'block' | 'timed-swim';
  readonly rep: number;
  readonly of: number;
  readonly words: string;
  /** Tenths; of an untimed set the whole, of a swim by time 0. */
  readonly distance: number;
  interval: number;
  /** What a timed block has left over after its last rep. */
  readonly leftover: number;
  readonly target: number | null;
  readonly estimated: boolean;
  readonly untimed: boolean;
  readonly onAssumedBase: boolean;
  /** The swims that it stands for: several in an untimed set, none in a swim by time. */
  readonly swims: readonly Swim[];
}

export interface ModelRound {
  readonly line: number;
  readonly round: number;
  readonly of: number;
}

export interface ModelStretch {
  readonly partIndex: number;
  readonly part: string;
  readonly kind: 'swim' | 'talk' | 'break';
  readonly words: string;
  /** Of a talk or break; null for a swim. */
  readonly line: number | null;
  /** Of a talk or break; 0 for a swim. */
  readonly ms: number;
  readonly rounds: readonly ModelRound[];
  /** One list a lane, in lane order; no lists for a talk or break. */
  readonly lanes: ModelRep[][];
  /** Of a talk or break: its round has been cut. */
  isCutAway?: boolean;
}

/** All stretches of a session, in order. */
export function stretchesOf(scenario: Scenario): ModelStretch[] {
  const stretches: ModelStretch[] = [];
  let place = 0;
  scenario.parts.forEach((part, partIndex) => {
    let open: ModelStretch | null = null;
    const name = nameOf(part, scenario);

    /** `swimming`: the indexes of the lanes that the item is for. */
    const readOut = (item: ScenarioItem, rounds: readonly ModelRound[], swimming: readonly number[]): void => {
      if (isNote(item)) return;
      if (item.kind === 'lanes') {
        item.items.forEach((inner) => readOut(inner, rounds, item.lanes));
        return;
      }
      if (hasItems(item)) {
        for (let round = 1; round <= item.times; round += 1) {
          const inside = [...rounds, { line: item.line, round, of: item.times }];
          item.items.forEach((inner) => readOut(inner, inside, swimming));
        }
        return;
      }
      if (isPause(item)) {
        const { kind, words, line, ms } = item;
        stretches.push({ partIndex, part: name, kind, words, line, ms, rounds, lanes: [] });
        open = null;
        return;
      }
      if (open === null) {
        open = {
          partIndex,
          part: name,
          kind: 'swim',
          words: '',
          line: null,
          ms: 0,
          rounds: [],
          lanes: scenario.lanes.map(() => []),
        };
        stretches.push(open);
      }
      place += 1;
      const own = ofLanes(scenario, swimming);
      for (const [ownIndex, laneIndex] of swimming.entries()) {
        open.lanes[laneIndex]?.push(...repsOf(item, rounds, place, own, ownIndex, name));
      }
      if (item.kind === 'set' && item.timing.kind === 'untimed') open = null;
    };
    const allLanes = scenario.lanes.map((_lane, laneIndex) => laneIndex);
    part.items.forEach((item) => readOut(item, [], allLanes));
  });
  return stretches;
}

function isPause(item: ScenarioItem): item is ScenarioPause {
  return item.kind === 'talk' || item.kind === 'break';
}

export function nameOf(part: ScenarioPart, scenario: Scenario): string {
  return part.heading ?? scenario.title ?? 'Session';
}

/** What a stretch waits for before it begins, given the one before it (null for the first). */
export function waitOf(stretch: ModelStretch, before: ModelStretch | null, scenario: Scenario): 'call' | 'auto' {
  if (before === null || before.kind === 'talk' || holdsUntimed(before)) return 'call';
  if (stretch.partIndex !== before.partIndex) return scenario.between.auto ? 'auto' : 'call';
  return 'auto';
}

export function holdsUntimed(stretch: ModelStretch): boolean {
  return stretch.lanes.some((reps) => reps.some((rep) => rep.untimed));
}

/** Cuts have left nothing of it. */
export function isLeftWithNothing(stretch: ModelStretch): boolean {
  return stretch.kind === 'swim' ? stretch.lanes.every((reps) => reps.length === 0) : stretch.isCutAway === true;
}

/** When a stretch begins by the plan's rule, after one that ends at `end`; `align` belongs to the clock in use. */
export function beginAfter(
  end: number,
  stretch: ModelStretch,
  before: ModelStretch,
  scenario: Scenario,
  align: (time: number) => number,
): number {
  if (stretch.partIndex !== before.partIndex) return align(end + scenario.between.ms);
  return stretch.kind === 'swim' ? align(end) : end;
}

/** Where each rep leaves, counted from the first one's leave, and where the cursor ends. */
export function walk(reps: readonly ModelRep[]): { offsets: number[]; length: number } {
  const offsets: number[] = [];
  let cursor = 0;
  for (const rep of reps) {
    offsets.push(cursor);
    cursor += rep.interval + rep.leftover;
  }
  return { offsets, length: cursor };
}

/** The longest lane, tails and all. Lanes that do not take part have null for a tail. */
export function stretchLength(stretch: ModelStretch, tails: readonly (number | null)[]): number {
  if (stretch.kind !== 'swim') return stretch.ms;
  const lengths = stretch.lanes.map((reps, laneIndex) => {
    const tail = tails[laneIndex] ?? null;
    return tail === null || reps.length === 0 ? 0 : walk(reps).length + tail;
  });
  return Math.max(0, ...lengths);
}

function repsOf(
  item: ScenarioSet | ScenarioBlock | ScenarioTimedSwim,
  rounds: readonly ModelRound[],
  place: number,
  scenario: Scenario,
  laneIndex: number,
  partName: string,
): ModelRep[] {
  const common = { line: item.line, place, rounds, kind: item.kind, words: item.words };
  if (item.kind === 'timed-swim') {
    const plain = { leftover: 0, target: null, estimated: false, untimed: false, onAssumedBase: false, swims: [] };
    return [{ ...common, ...plain, rep: 1, of: 1, distance: 0, interval: item.ms }];
  }
  const swims =
    item.kind === 'set'
      ? swimsOf(item, scenario, laneIndex, partName)
      : swimsInBlock(item, scenario, laneIndex, partName);
  if (swims.length === 0) return [];
  if (item.timing.kind === 'untimed') return [{ ...common, ...wholeOf(swims, scenario) }];
  const total = swims.reduce((sum, swim) => sum + (swim.interval ?? 0), 0);
  return swims.map((swim, index) => ({
    ...common,
    words: swim.words,
    rep: index + 1,
    of: swims.length,
    distance: swim.distance,
    interval: swim.interval ?? 0,
    leftover: item.kind === 'block' && index === swims.length - 1 ? blockTime(item) - total : 0,
    target: swim.target,
    estimated: swim.byRest,
    untimed: false,
    onAssumedBase: swim.onAssumedBase,
    swims: [swim],
  }));
}

/** An untimed set is one leave that stands for all its swims. */
function wholeOf(swims: readonly Swim[], scenario: Scenario) {
  const expected = swims.reduce<Exact>((sum, swim) => plus(sum, swim.expected), exact(0));
  const targets = new Set(swims.map((swim) => swim.target));
  return {
    rep: 1,
    of: 1,
    distance: swims.reduce((sum, swim) => sum + swim.distance, 0),
    interval: upTo(scenario.grid * 1000, expected),
    leftover: 0,
    target: targets.size === 1 ? (swims[0]?.target ?? null) : null,
    estimated: true,
    untimed: true,
    onAssumedBase: swims.some((swim) => swim.onAssumedBase),
    swims,
  };
}

function blockTime(item: ScenarioSet | ScenarioBlock): number {
  return item.kind === 'block' ? item.ms : 0;
}
