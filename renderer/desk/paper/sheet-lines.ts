/*
 * A session as lines on paper: for everybody, and for one lane.
 */

import type { Plan, Rep } from '../../../app/core/plan/plan.ts';
import type { Item } from '../../../app/core/session/session.ts';
import { distanceIn } from '../../../app/core/words/distance.ts';
import { lanesNamed } from '../../../app/core/words/lanes.ts';
import { commaed, count } from '../../../app/core/words/phrase.ts';
import { headingWords, itemWords, laneLineWords, NO_CUTS, roundsLeft } from '../../../app/core/words/set.ts';
import { spanText } from '../../../app/core/words/time/reading.ts';
import { timingWords } from '../../../app/core/words/timing.ts';
import { firstReps, timetableOf, type FirstReps } from '../timetable/timetable-rows.ts';

export interface SheetPart {
  readonly key: number;
  readonly name: string;
  /** "19:30, 8:00". */
  readonly when: string;
  readonly lines: readonly SheetLine[];
}

export interface SheetLine {
  readonly key: string;
  readonly depth: number;
  readonly words: string;
  /** None for a line that has no interval; more than one where lanes differ. */
  readonly timings: readonly LaneTiming[];
}

export interface LaneTiming {
  /** "lane 2", "lanes 3 and 4"; '' where it is the same in all that swim the line. */
  readonly lanes: string;
  /** "on 1:30, hold 1:20". */
  readonly words: string;
}

export interface LaneSheet {
  readonly lane: number;
  /** "5 swimmers, 5 s apart", or their names. */
  readonly who: string;
  readonly distance: string;
  readonly parts: readonly SheetPart[];
}

export function boardParts(plan: Plan): readonly SheetPart[] {
  const reps = firstReps(plan.stretches);
  const numbers = plan.session.lanes.map(({ number }) => number);
  return partsOf(plan, (items) => boardLines(items, 0, reps, numbers));
}

export function laneSheets(plan: Plan): readonly LaneSheet[] {
  const { totals } = timetableOf(plan);
  const reps = firstReps(plan.stretches);
  return plan.session.lanes.map(({ number, swimmers, names, gap }, index) => ({
    lane: number,
    who: commaed(
      names.length > 0 ? names.join(', ') : count(swimmers, 'swimmer'),
      swimmers > 1 ? `${spanText(gap)} apart` : '',
    ),
    distance: distanceIn(totals.distances[index]!, plan.session.pool.unit),
    parts: partsOf(plan, (items) => laneLines(items, 0, reps, index)),
  }));
}

function partsOf(plan: Plan, linesOf: (items: readonly Item[]) => readonly SheetLine[]): readonly SheetPart[] {
  return timetableOf(plan).parts.map(({ key, name, starts, length }) => ({
    key,
    name,
    when: `${starts}, ${length}`,
    lines: linesOf(plan.session.parts[key]!.items),
  }));
}

/** Each line with the lanes that it is for, and its interval, by lane where lanes differ. */
function boardLines(
  items: readonly Item[],
  depth: number,
  reps: FirstReps,
  numbers: readonly number[],
  within = false,
): readonly SheetLine[] {
  return items.flatMap((item) => {
    const key = `${item.line} ${depth}`;
    switch (item.kind) {
      case 'rounds':
        return [
          { key, depth, words: roundsLeft(item, NO_CUTS), timings: [] },
          ...boardLines(item.items, depth + 1, reps, numbers, within),
        ];
      case 'lanes':
        return [
          { key, depth, words: headingWords(item, NO_CUTS) ?? '', timings: [] },
          ...boardLines(item.items, depth + 1, reps, numbers, true),
        ];
      case 'talk':
      case 'break':
        return [{ key, depth, words: itemWords(item, NO_CUTS), timings: [] }];
      case 'set':
      case 'block':
      case 'timed-swim': {
        const words = itemWords(item, NO_CUTS, within);
        return [{ key, depth, words, timings: timingsOf(reps.get(item.line) ?? [], numbers) }];
      }
    }
  });
}

/** Lanes that do not swim have none. */
function timingsOf(reps: readonly (readonly Rep[])[], numbers: readonly number[]): readonly LaneTiming[] {
  const lanes = new Map<string, number[]>();
  reps.forEach((own, index) => {
    const words = timingWords(own);
    if (own.length > 0) lanes.set(words, [...(lanes.get(words) ?? []), numbers[index]!]);
  });
  return [...lanes].map(([words, own]) => ({ lanes: lanes.size === 1 ? '' : lanesNamed(own), words }));
}

/** What one lane swims, and what it waits for. lane: its index in lane order. */
function laneLines(items: readonly Item[], depth: number, reps: FirstReps, lane: number): readonly SheetLine[] {
  return items.flatMap((item) => {
    const key = `${item.line} ${depth}`;
    switch (item.kind) {
      case 'rounds': {
        const inside = laneLines(item.items, depth + 1, reps, lane);
        const head = { key, depth, words: roundsLeft(item, NO_CUTS), timings: [] };
        return inside.length === 0 ? [] : [head, ...inside];
      }
      case 'lanes':
        return laneLines(item.items, depth, reps, lane);
      case 'talk':
      case 'break':
        return [{ key, depth, words: itemWords(item, NO_CUTS), timings: [] }];
      case 'set':
      case 'block':
      case 'timed-swim': {
        const own = reps.get(item.line)?.[lane] ?? [];
        const timings = [{ lanes: '', words: timingWords(own) }];
        return own.length === 0 ? [] : [{ key, depth, words: laneLineWords(item, lane), timings }];
      }
    }
  });
}
