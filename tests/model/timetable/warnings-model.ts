/*
 * The warnings of a plan, rule by rule, each found in the plainest way: look at every leave of every
 * lane and note line and lane where the rule's words are true.
 */

import { exact, isBelow, plus, times, type Exact } from './exact.ts';
import {
  everyItemInLanes,
  isNote,
  isSwum,
  lastLineBefore,
  type Scenario,
  type ScenarioBlock,
  type ScenarioItem,
  type ScenarioSet,
  type ScenarioTimedSwim,
  type WrittenScenario,
} from '../scenario.ts';
import type { ModelRep, ModelStretch } from './stretches-model.ts';
import type { Swim } from './pace-model.ts';

export interface ModelWarning {
  readonly code: string;
  readonly line: number;
  readonly lane: number | null;
}

const CODES = [
  'cannot-make',
  'rest-short',
  'lane-full',
  'tail-late',
  'part-lengths',
  'far-end',
  'over-time',
  'empty-part',
  'words-distance',
  'assumed-base',
];

/** Each code once a line and lane, by line, lane and code. */
export function warningsFor(
  written: WrittenScenario,
  stretches: readonly ModelStretch[],
  isOver: boolean,
): ModelWarning[] {
  const { scenario } = written;
  const found: ModelWarning[] = [];
  scenario.lanes.forEach((lane, laneIndex) => {
    const note = (code: string, line: number): void => void found.push({ code, line, lane: lane.number });
    const byStretch = stretches.map((stretch) => stretch.lanes[laneIndex] ?? []);
    noteRests(byStretch.flat(), note);
    noteFullLanes(byStretch.flat(), scenario, laneIndex, note);
    noteLateTails(byStretch, scenario, laneIndex, note);
    noteFarEnds(byStretch.flat(), scenario, note);
    const assumed = byStretch.flat().filter((rep) => rep.onAssumedBase);
    if (assumed.length > 0) note('assumed-base', Math.min(...assumed.map((rep) => rep.line)));
  });
  found.push(...partLengths(scenario), ...wordsDistances(scenario));
  if (isOver && written.finishLine !== null) found.push({ code: 'over-time', line: written.finishLine, lane: null });
  scenario.parts.forEach((part, index) => {
    const line = lastLineBefore(written, index) + 1;
    if (part.items.every(isNote)) found.push({ code: 'empty-part', line, lane: null });
  });
  return inOrder(found);
}

type Note = (code: string, line: number) => void;

function noteRests(reps: readonly ModelRep[], note: Note): void {
  for (const line of new Set(reps.map((rep) => rep.line))) {
    const timed = reps.filter((rep) => rep.line === line && rep.kind !== 'timed-swim' && !rep.untimed);
    const rests = timed.map((rep) => restAfter(rep));
    if (rests.some((rest) => isBelow(rest, exact(0)))) note('cannot-make', line);
    else if (rests.some((rest) => isBelow(rest, exact(5000)))) note('rest-short', line);
  }
}

function restAfter(rep: ModelRep): Exact {
  const expected = rep.swims[0]?.expected ?? exact(0);
  return plus(exact(rep.interval), times(exact(-1), expected));
}

function noteFullLanes(reps: readonly ModelRep[], scenario: Scenario, laneIndex: number, note: Note): void {
  const swimmers = scenario.lanes[laneIndex]?.swimmers ?? 1;
  const gap = (scenario.lanes[laneIndex]?.gap ?? scenario.gap) * 1000;
  for (const rep of reps) {
    if (rep.swims.some((swim) => isTooMany(swimmers * gap, swim, scenario))) note('lane-full', rep.line);
  }
}

function isTooMany(spread: number, swim: Swim, scenario: Scenario): boolean {
  const twoLengths = 2 * scenario.pool.hundredths;
  const distance = swim.distance * 10;
  if (distance < twoLengths) return false;
  return isBelow(times(swim.expected, exact(twoLengths, distance)), exact(spread));
}

function noteLateTails(
  byStretch: readonly (readonly ModelRep[])[],
  scenario: Scenario,
  laneIndex: number,
  note: Note,
): void {
  const swimmers = scenario.lanes[laneIndex]?.swimmers ?? 1;
  const tail = (swimmers - 1) * (scenario.lanes[laneIndex]?.gap ?? scenario.gap) * 1000;
  for (const reps of byStretch) {
    reps.forEach((rep, index) => {
      const another = index < reps.length - 1;
      const untilNext = rep.interval + rep.leftover;
      if (another && !rep.untimed && tail >= untilNext) note('tail-late', rep.line);
    });
  }
}

function noteFarEnds(reps: readonly ModelRep[], scenario: Scenario, note: Note): void {
  let lengths = 0;
  reps.forEach((rep, index) => {
    for (const swim of rep.swims) lengths += wholeLengths(swim.distance, scenario);
    const isLastOfSet = reps[index + 1]?.place !== rep.place;
    const moreToSwim = index < reps.length - 1;
    if (isLastOfSet && moreToSwim && rep.kind !== 'timed-swim' && lengths % 2 === 1) note('far-end', rep.line);
  });
}

/** Half a length counts as a whole one. */
function wholeLengths(distance: number, scenario: Scenario): number {
  return Math.floor((2 * distance * 10 + scenario.pool.hundredths) / (2 * scenario.pool.hundredths));
}

function partLengths(scenario: Scenario): ModelWarning[] {
  const found: ModelWarning[] = [];
  const code = 'part-lengths';
  const items = scenario.parts.flatMap((part) => part.items);
  for (const { item, own } of everyItemInLanes(items, scenario)) {
    if (item.kind !== 'set' && item.kind !== 'block') continue;
    const distances = distancesIn(item);
    if ('all' in distances) {
      if (distances.all.some((distance) => !isWhole(distance, scenario)))
        found.push({ code, line: item.line, lane: null });
      continue;
    }
    distances.each.forEach((distance, laneIndex) => {
      const sitsOut =
        item.kind === 'set' && item.shape.kind === 'repeat' && countFor(item.shape.counts, laneIndex) === 0;
      const lane = own.lanes[laneIndex]?.number ?? null;
      if (!sitsOut && !isWhole(distance, scenario)) found.push({ code, line: item.line, lane });
    });
  }
  return found;
}

const BEFORE_WHAT_IS_SWUM = ['by', 'as', 'of', 'in', 'at', 'to', 'every', 'each', 'first', 'last', 'hr'];

/** The words of whatever is swum; those of talks and breaks are free. */
function wordsDistances(scenario: Scenario): ModelWarning[] {
  const items = scenario.parts.flatMap((part) => part.items);
  return everyItemInLanes(items, scenario)
    .filter(({ item }) => isSwum(item) && wordsOf(item).some((words) => holdDistance(words, scenario)))
    .map(({ item }) => ({ code: 'words-distance', line: item.line, lane: null }));
}

/** The line's own words, and those of its odds and evens. */
function wordsOf(item: ScenarioSet | ScenarioBlock | ScenarioTimedSwim): string[] {
  const halves = item.kind === 'set' && item.timing.kind === 'halves' ? [item.timing.odds, item.timing.evens] : [];
  return [item.words, ...halves.map((half) => half.words)];
}

function holdDistance(words: string, scenario: Scenario): boolean {
  const tokens = words.toLowerCase().split(/[\s,]+/);
  return tokens.some((token, index) => {
    if (!/^\d+$/.test(token) || Number(token) < 50 || !isWhole(Number(token) * 10, scenario)) return false;
    const before = tokens.slice(0, index);
    const after = tokens[index + 1] ?? '';
    return (
      !BEFORE_WHAT_IS_SWUM.includes(before[index - 1] ?? '') && !before.includes('as') && !['%', 'pace'].includes(after)
    );
  });
}

function countFor(counts: { same: number } | { each: readonly number[] }, laneIndex: number): number {
  return 'same' in counts ? counts.same : (counts.each[laneIndex] ?? 0);
}

function distancesIn(
  item: Extract<ScenarioItem, { kind: 'set' | 'block' }>,
): { all: readonly number[] } | { each: readonly number[] } {
  if (item.kind === 'set' && item.shape.kind === 'ladder') return { all: item.shape.rungs };
  const distances = item.kind === 'block' ? item.distances : item.shape.kind === 'repeat' ? item.shape.distances : null;
  if (distances === null) return { all: [] };
  return 'same' in distances ? { all: [distances.same] } : distances;
}

/** Within half a per cent of a whole number of lengths, from one. */
function isWhole(distance: number, scenario: Scenario): boolean {
  const length = scenario.pool.hundredths;
  const number = wholeLengths(distance, scenario);
  return number >= 1 && Math.abs(distance * 10 - number * length) * 200 <= number * length;
}

function inOrder(found: readonly ModelWarning[]): ModelWarning[] {
  const once = new Map(found.map((warning) => [`${warning.code} ${warning.line} ${warning.lane}`, warning]));
  const rank = (warning: ModelWarning): number[] => [warning.line, warning.lane ?? -1, CODES.indexOf(warning.code)];
  return [...once.values()].sort((a, b) => {
    const [first, second] = [rank(a), rank(b)];
    const differing = first.findIndex((value, index) => value !== second[index]);
    return differing < 0 ? 0 : (first[differing] ?? 0) - (second[differing] ?? 0);
  });
}
