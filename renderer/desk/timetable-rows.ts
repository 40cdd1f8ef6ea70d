/*
 * The timetable as the coach reads it while writing: each part with its start and, line by line, what
 * every lane swims on which interval.
 */

import { distanceText } from '../../app/core/lengths.ts';
import { reading, spanText, timeOfDayAfter } from '../../app/core/reading.ts';
import { endsByEstimate, estimatedFrom, isEstimated } from '../../app/core/plan/estimates.ts';
import type { Plan, Rep, Stretch } from '../../app/core/plan/plan.ts';
import { plannedTimes } from '../../app/core/plan/schedule.ts';
import { totalsOf, type Totals } from '../../app/core/plan/totals.ts';
import type { Item, Lane } from '../../app/core/session/session.ts';
import type { Millis } from '../../app/core/units.ts';
import { about } from '../ui/estimates.ts';
import { itemWords } from '../ui/set-words.ts';

export interface Timetable {
  readonly lanes: readonly number[];
  /** What is known of each lane, a row a kind. */
  readonly squad: readonly TimetableRow[];
  readonly parts: readonly TimetablePart[];
  readonly totals: Totals;
  /** "1:02:30", "≈" before it where it rests on estimates. */
  readonly length: string;
  /** "ends 20:27, booked to 20:30"; null without a start. */
  readonly ends: string | null;
}

export interface TimetablePart {
  readonly key: number;
  readonly name: string;
  /** Time of day, or from the start of the session. */
  readonly starts: string;
  readonly length: string;
  readonly rows: readonly TimetableRow[];
  /** In lane order. */
  readonly distances: readonly string[];
}

export interface TimetableRow {
  readonly key: string;
  readonly depth: number;
  readonly words: string;
  /** In lane order: "on 1:30", "on ≈ 1:45", "–" for a lane that sits it out; empty for a talk or break. */
  readonly lanes: readonly string[];
}

export function timetableOf(plan: Plan): Timetable {
  const times = plannedTimes(plan);
  const totals = totalsOf(plan, times);
  const { session } = plan;
  const reps = firstReps(plan.stretches);
  return {
    lanes: session.lanes.map(({ number }) => number),
    squad: squadRows(session.lanes),
    parts: totals.parts.map(({ partIndex, name, first, start, end, distances }) => ({
      key: partIndex,
      name,
      starts: `${about(first >= estimatedFrom(plan))}${session.startsAt === null ? reading(start) : timeOfDayAfter(session.startsAt, start)}`,
      length: lengthText(end - start, plan, partIndex),
      rows: rowsOf(session.parts[partIndex]!.items, 0, reps, session.lanes.length),
      distances: distances.map(distanceText),
    })),
    totals,
    length: lengthText(totals.duration, plan, null),
    ends: endsText(plan, totals.duration),
  };
}

/** A base that is not written is marked as the estimate it is; without any css there is no row of them. */
function squadRows(lanes: readonly Lane[]): readonly TimetableRow[] {
  const row = (words: string, textOf: (lane: Lane) => string): TimetableRow => ({
    key: words,
    depth: 0,
    words,
    lanes: lanes.map(textOf),
  });
  const swimmers = row('Swimmers', ({ swimmers: number, gap }) =>
    number === 1 ? '1' : `${number}, ${spanText(gap)} apart`,
  );
  const base = row('Base, per 100', ({ base, baseFrom }) => `${baseFrom === 'written' ? '' : '≈ '}${reading(base)}`);
  const css = row('css, per 100', (lane) => (lane.css === null ? '–' : reading(lane.css)));
  return lanes.some((lane) => lane.css !== null) ? [swimmers, base, css] : [swimmers, base];
}

/** By line, the first rep that each lane swims of it, in lane order; null for a lane that does not. */
function firstReps(stretches: readonly Stretch[]): ReadonlyMap<number, readonly (Rep | null)[]> {
  const reps = new Map<number, (Rep | null)[]>();
  for (const { lanes } of stretches) {
    lanes.forEach((own, lane) => {
      for (const rep of own.reps) {
        const line = reps.get(rep.set.line) ?? lanes.map(() => null);
        reps.set(rep.set.line, line);
        line[lane] = line[lane] ?? rep;
      }
    });
  }
  return reps;
}

function rowsOf(
  items: readonly Item[],
  depth: number,
  reps: ReadonlyMap<number, readonly (Rep | null)[]>,
  lanes: number,
): readonly TimetableRow[] {
  const rows: TimetableRow[] = [];
  for (const item of items) {
    const key = `${item.line} ${depth}`;
    if (item.kind === 'rounds') {
      const words = item.times === 1 ? '1 round' : `${item.times} rounds`;
      rows.push({ key, depth, words, lanes: [] }, ...rowsOf(item.items, depth + 1, reps, lanes));
    } else {
      const own = item.kind === 'talk' || item.kind === 'break' ? [] : (reps.get(item.line) ?? []);
      rows.push({ key, depth, words: itemWords(item), lanes: own.map(intervalText) });
    }
  }
  return rows;
}

function intervalText(rep: Rep | null): string {
  if (!rep) return '–';
  const { set, interval, target } = rep;
  const hold = target === null ? '' : `, hold ${reading(target)}`;
  return `${about(set.estimated)}${reading(interval)}${hold}`;
}

/** Whole seconds; marked where an estimate is in it. */
function lengthText(length: Millis, plan: Plan, partIndex: number | null): string {
  const estimated = plan.stretches.some(
    (stretch) => (partIndex === null || stretch.partIndex === partIndex) && isEstimated(stretch),
  );
  return `${about(estimated)}${reading(Math.round(length / 1000) * 1000)}`;
}

function endsText(plan: Plan, duration: Millis): string | null {
  const { session } = plan;
  if (session.startsAt === null) return null;
  const ends = `ends ${about(endsByEstimate(plan))}${timeOfDayAfter(session.startsAt, Math.round(duration / 1000) * 1000)}`;
  return session.finishBy === null ? ends : `${ends}, booked to ${timeOfDayAfter(session.finishBy, 0)}`;
}
