/*
 * The rows of the timetable: each part with its start and, line by line, what every lane swims on which interval. Before
 * a run the times are the plan's; during it they are projected, with lanes, swimmers and gaps as they are.
 */

import type { Plan, Rep, Stretch } from '../../../app/core/plan/plan.ts';
import { endsByEstimate, estimatedFrom, isEstimated } from '../../../app/core/plan/estimates.ts';
import { plannedTimes } from '../../../app/core/plan/schedule.ts';
import { totalsOf, type Totals } from '../../../app/core/plan/totals.ts';
import type { Item, Lane, Session } from '../../../app/core/session/session.ts';
import { MINUTE, type LengthUnit, type Millis } from '../../../app/core/units.ts';
import { distanceText } from '../../../app/core/words/distance.ts';
import { durationText } from '../../../app/core/words/time/duration.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { reading, spanText } from '../../../app/core/words/time/reading.ts';
import { cutsInside, headingWords, itemWords, NO_CUTS, type Cuts } from '../../../app/core/words/set.ts';
import { wrongHourText } from '../../../app/core/words/time/booking.ts';
import { timingCell } from '../../../app/core/words/timing.ts';
import { clockTime, endTimeAfter, timeOfDay, timeOfDayAfter } from '../../../app/core/words/time/time-of-day.ts';

export interface Timetable {
  readonly title: string;
  readonly unit: LengthUnit;
  readonly lanes: readonly number[];
  /** The lanes themselves: swimmers and gaps, paces, and so on, one kind a row. */
  readonly squad: readonly TimetableRow[];
  readonly parts: readonly TimetablePart[];
  readonly totals: Totals;
  /** "1 h 2 min 30 s", "≈" before it where it rests on estimates. */
  readonly length: string;
  /** "ends 20:27, booked to 20:30"; null without a start. */
  readonly ends: string | null;
  /** "3 min past the finish"; null where it ends in time. */
  readonly over: string | null;
  /** What is wrong with the booked hours, and the finish's line; null for nothing. */
  readonly wrongHour: { readonly said: string; readonly line: number } | null;
}

/** How a run stands, for its timetable. */
export interface LiveTimes {
  /** By part, from its first stretch that is not over to its last, in ms since the run was opened. */
  readonly parts: ReadonlyMap<number, { readonly start: Millis; readonly end: Millis }>;
  /** Local time of day at t = 0, in ms after midnight. */
  readonly openedAt: Millis;
  readonly cuts: Cuts;
  /** The lanes that are in, with swimmers and gaps as they are. */
  readonly lanes: readonly { readonly number: number; readonly swimmers: number; readonly gap: Millis }[];
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
  /** In lane order: "1:30", "≈1:45, hold 1:20", "50 on 0:45, 100 on 1:30", "–" for a lane that sits it out; empty for a talk or break. */
  readonly lanes: readonly string[];
}

/** The whole plan; in a run (`live`) the parts that are not over, the lanes that are in, and what cuts have left. */
export function timetableOf(plan: Plan, live: LiveTimes | null = null): Timetable {
  const { session } = plan;
  const shown = session.lanes
    .map((lane, index) => ({ lane, index, now: live?.lanes.find(({ number }) => number === lane.number) }))
    .filter(({ now }) => live === null || now !== undefined);
  const ofShown = <Value>(values: readonly Value[]): readonly Value[] => shown.map(({ index }) => values[index]!);
  const totals = totalsOf(plan, plannedTimes(plan));
  const reps = firstReps(plan.stretches);
  const parts = totals.parts.filter(({ partIndex }) => live === null || live.parts.has(partIndex));
  const estimated = estimatedParts(plan);
  const fromEstimate = estimatedFrom(plan);
  return {
    title: session.title ?? 'Session',
    unit: session.pool.unit,
    lanes: shown.map(({ lane }) => lane.number),
    squad: squadRows(shown.map(({ lane, now }) => ({ ...lane, ...now }))),
    parts: parts.map(({ partIndex, name, first, start, end, distances }) => ({
      key: partIndex,
      name,
      starts: live
        ? liveStart(live, partIndex)
        : `${about(first >= fromEstimate)}${planStart(session.startsAt, start)}`,
      length: lengthText(live ? liveLength(live, partIndex) : end - start, estimated.has(partIndex)),
      rows: rowsOf(
        session.parts[partIndex]!.items,
        0,
        reps,
        shown.map(({ index }) => index),
        live?.cuts ?? NO_CUTS,
      ),
      distances: ofShown(distances).map(distanceText),
    })),
    totals: { ...totals, distances: ofShown(totals.distances) },
    length: lengthText(totals.duration, estimated.size > 0),
    ends: endsText(plan, totals.duration),
    over: totals.over ? `${about(endsByEstimate(plan))}${durationText(totals.over)} past the finish` : null,
    wrongHour: wrongHour(session),
  };
}

function wrongHour(session: Session): Timetable['wrongHour'] {
  const said = wrongHourText(session);
  return said === null ? null : { said, line: session.finishLine! };
}

function planStart(startsAt: number | null, start: Millis): string {
  return startsAt === null ? reading(start) : timeOfDayAfter(startsAt, start);
}

function liveStart({ parts, openedAt }: LiveTimes, partIndex: number): string {
  return `${about(true)}${clockTime(openedAt + Math.round((parts.get(partIndex)?.start ?? 0) / MINUTE) * MINUTE)}`;
}

function liveLength({ parts }: LiveTimes, partIndex: number): Millis {
  const times = parts.get(partIndex);
  return times ? times.end - times.start : 0;
}

/** A base that is not written is marked as an estimate. Without any css there is no such row. */
function squadRows(lanes: readonly Lane[]): readonly TimetableRow[] {
  const row = (words: string, textOf: (lane: Lane) => string): TimetableRow => ({
    key: words,
    depth: 0,
    words,
    lanes: lanes.map(textOf),
  });
  const swimmers = row('Swimmers', (lane) => `${lane.swimmers}`);
  // A row of its own: "7, 5 s apart" would be read as 7.5.
  const gap = row('Gap', (lane) => (lane.swimmers === 1 ? '–' : spanText(lane.gap)));
  const known = lanes.some((lane) => lane.swimmers > 1) ? [swimmers, gap] : [swimmers];
  const base = row('Base, per 100', ({ base, baseFrom }) => `${about(baseFrom !== 'written')}${reading(base)}`);
  const css = row('css, per 100', (lane) => (lane.css === null ? '–' : reading(lane.css)));
  return lanes.some((lane) => lane.css !== null) ? [...known, base, css] : [...known, base];
}

/** By line, what each lane swims of it the first time, in lane order; nothing for a lane that does not. */
export type FirstReps = ReadonlyMap<number, readonly (readonly Rep[])[]>;

export function firstReps(stretches: readonly Stretch[]): FirstReps {
  const reps = new Map<number, Rep[][]>();
  for (const { lanes } of stretches) {
    lanes.forEach((own, lane) => {
      for (const rep of own.reps) {
        const line = reps.get(rep.set.line) ?? lanes.map(() => []);
        reps.set(rep.set.line, line);
        const first = line[lane]!;
        if (first.length === 0 || first[0]!.set === rep.set) first.push(rep);
      }
    });
  }
  return reps;
}

/** `lanes`: the places in lane order of those that are shown; `cuts`: what is not swum of these items. */
function rowsOf(
  items: readonly Item[],
  depth: number,
  reps: FirstReps,
  lanes: readonly number[],
  cuts: Cuts,
  within = false,
): readonly TimetableRow[] {
  const rows: TimetableRow[] = [];
  for (const item of items) {
    const key = `${item.line} ${depth}`;
    if (item.kind === 'rounds' || item.kind === 'lanes') {
      rows.push({ key, depth, words: headingWords(item, cuts) ?? itemWords(item, cuts, within), lanes: [] });
      const inner = cutsInside(item, cuts);
      const isWithin = within || item.kind === 'lanes';
      for (const row of rowsOf(item.items, depth + 1, reps, lanes, inner, isWithin)) rows.push(row);
    } else {
      const own = item.kind === 'talk' || item.kind === 'break' ? undefined : reps.get(item.line);
      rows.push({
        key,
        depth,
        words: itemWords(item, cuts, within),
        lanes: own ? lanes.map((lane) => timingText(leftOf(item, own[lane]!, cuts))) : [],
      });
    }
  }
  return rows;
}

/** What cuts have left of a set's reps: one at least. */
function leftOf({ kind, line }: Item, reps: readonly Rep[], cuts: Cuts): readonly Rep[] {
  return kind === 'set' ? reps.slice(0, Math.max(1, reps.length - (cuts.get(line) ?? 0))) : reps;
}

function timingText(reps: readonly Rep[]): string {
  return reps.length === 0 ? '–' : timingCell(reps);
}

/** Marked if an estimate is in it. */
function lengthText(length: Millis, estimated: boolean): string {
  return `${about(estimated)}${durationText(length)}`;
}

function estimatedParts({ stretches }: Plan): ReadonlySet<number> {
  const parts = new Set<number>();
  for (const stretch of stretches) if (isEstimated(stretch)) parts.add(stretch.partIndex);
  return parts;
}

function endsText(plan: Plan, duration: Millis): string | null {
  const { session } = plan;
  if (session.startsAt === null) return null;
  const ends = `ends ${about(endsByEstimate(plan))}${endTimeAfter(session.startsAt, duration)}`;
  return session.finishBy === null ? ends : `${ends}, booked to ${timeOfDay(session.finishBy)}`;
}
