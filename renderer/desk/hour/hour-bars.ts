/*
 * The hour as a picture, before it is drawn: what each lane does when, along the planned time, with the booked finish
 * and the latest start of the swim-down. All places are parts of the width, 0 to 100.
 */

import { estimatedFrom } from '../../../app/core/plan/estimates.ts';
import type { Plan, Stretch } from '../../../app/core/plan/plan.ts';
import { planDuration, plannedTimes, stretchLength } from '../../../app/core/plan/schedule.ts';
import { timeToFinish, totalsOf } from '../../../app/core/plan/totals.ts';
import { isSwimDown } from '../../../app/core/session/lanes/pace.ts';
import { MINUTE, type Millis } from '../../../app/core/units.ts';
import { isWrongHour } from '../../../app/core/words/time/booking.ts';
import { about } from '../../../app/core/words/time/estimate.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import { endTimeAfter, timeOfDayAfter } from '../../../app/core/words/time/time-of-day.ts';

export interface HourPicture {
  /** In lane order. */
  readonly lanes: readonly number[];
  readonly bars: readonly HourBar[];
  /** Where the booked time ends; null without a start and a finish. */
  readonly finish: number | null;
  readonly ticks: readonly { readonly at: number; readonly words: string }[];
  readonly parts: readonly PartSpan[];
}

/** A part in words. */
export interface PartSpan {
  readonly key: number;
  readonly name: string;
  readonly line: number;
  /** "19:30 to ≈19:44". */
  readonly span: string;
}

export type BarKind = 'swim' | 'swim-down' | 'pause';

export interface HourBar {
  readonly key: string;
  readonly kind: BarKind;
  /** Place in lane order; null for a talk or break, which is for all. */
  readonly lane: number | null;
  readonly from: number;
  readonly to: number;
  /** The piece of it behind the finish, which is drawn in its own way. */
  readonly over: boolean;
  /** The line that it begins with. */
  readonly line: number;
  readonly partIndex: number;
}

/** Of these the least is taken that leaves no more than six marks. */
const STEPS = [5, 10, 15, 30, 60, 120, 240].map((minutes) => minutes * MINUTE);
const LONGEST = STEPS[STEPS.length - 1]!;
const MOST_TICKS = 6;

export function hourPicture(plan: Plan): HourPicture {
  const { lanes, startsAt } = plan.session;
  const times = plannedTimes(plan);
  const booked = bookedTime(plan);
  const whole = wholeTime(plan);
  const place = (at: Millis): number => (100 * at) / whole;
  const bars = plan.stretches.flatMap((stretch, index) =>
    barsOf(plan, stretch, index, times[index]!.start).flatMap((bar) => atFinish(bar, booked)),
  );
  const step = STEPS.find((each) => whole / each <= MOST_TICKS) ?? LONGEST * Math.ceil(whole / MOST_TICKS / LONGEST);
  const ticks = Array.from({ length: Math.floor(whole / step) + 1 }, (_, n) => ({
    at: place(n * step),
    words: startsAt === null ? reading(n * step) : timeOfDayAfter(startsAt, n * step),
  }));
  return {
    lanes: lanes.map(({ number }) => number),
    bars: drawn(bars.map((bar) => ({ ...bar, from: place(bar.from), to: place(bar.to) }))),
    finish: booked === null ? null : place(booked),
    ticks,
    parts: partSpans(plan),
  };
}

/** Where a time of the session stands in the picture. */
export function placeIn(plan: Plan, at: Millis): number {
  return (100 * at) / wholeTime(plan);
}

/** What the width stands for: the booked time, or the planned where that is longer. */
function wholeTime(plan: Plan): Millis {
  return Math.max(planDuration(plannedTimes(plan)), bookedTime(plan) ?? 0, 1);
}

/** null too where an hour is wrong: half a day's width would show nothing of the session. */
function bookedTime({ session: { startsAt, finishBy } }: Plan): Millis | null {
  const booked = timeToFinish(startsAt, finishBy);
  return isWrongHour(booked) ? null : booked;
}

/** With times for places. A lane's bar goes on to the end of its tail. */
function barsOf(plan: Plan, stretch: Stretch, index: number, start: Millis): readonly HourBar[] {
  const { partIndex, part, line } = stretch;
  const common = { over: false, partIndex, from: start };
  if (stretch.kind !== 'swim') {
    return [{ ...common, key: `${index}`, kind: 'pause', lane: null, to: start + stretch.time, line }];
  }
  return stretch.lanes.flatMap(({ reps }, lane): readonly HourBar[] => {
    if (reps.length === 0) return [];
    const alone = plan.session.lanes.map((each, place) => (place === lane ? each : null));
    const to = start + stretchLength(stretch, alone);
    const kind = isSwimDown(part) ? 'swim-down' : 'swim';
    const from = start + reps[0]!.offset;
    return [{ ...common, key: `${index} ${lane}`, kind, lane, from, to, line: reps[0]!.set.line }];
  });
}

function atFinish(bar: HourBar, booked: Millis | null): readonly HourBar[] {
  if (booked === null || bar.to <= booked) return [bar];
  const over = { ...bar, key: `${bar.key} over`, over: true, from: Math.max(bar.from, booked) };
  return bar.from >= booked ? [over] : [{ ...bar, to: booked }, over];
}

/** Of a hundred: two bars of a lane that are nearer than this cannot be told apart. */
const NEAR = 0.1;

/** Too narrow to be told from its neighbours or tapped: some 4 px beside the text. */
const NARROW = 0.6;

/** As wide as narrow bars grow together. */
const JOINED = 3;

/** What is too small to be seen by itself goes into the bar before it. */
function drawn(bars: readonly HourBar[]): readonly HourBar[] {
  const last = new Map<string, number>();
  const all: HourBar[] = [];
  for (const bar of bars) {
    const row = `${bar.kind} ${bar.lane} ${bar.over}`;
    const at = last.get(row);
    const before = at === undefined ? undefined : all[at]!;
    const isSmall = bar.to - bar.from < NARROW && before !== undefined && bar.from - before.to < NEAR;
    if (isSmall && before.to - before.from < JOINED) {
      all[at!] = { ...before, to: Math.max(before.to, bar.to) };
    } else {
      last.set(row, all.push(bar) - 1);
    }
  }
  return all;
}

function partSpans(plan: Plan): readonly PartSpan[] {
  const { startsAt, parts } = plan.session;
  const startText = (at: Millis): string => (startsAt === null ? reading(at) : timeOfDayAfter(startsAt, at));
  const endText = (at: Millis): string => (startsAt === null ? reading(at) : endTimeAfter(startsAt, at));
  const unsure = estimatedFrom(plan);
  return totalsOf(plan).parts.map(({ partIndex, name, first, last, start, end }) => {
    const span = `${about(first >= unsure)}${startText(start)} to ${about(last + 1 >= unsure)}${endText(end)}`;
    const { line, items } = parts[partIndex]!;
    return { key: partIndex, name, line: line ?? items[0]!.line, span };
  });
}
