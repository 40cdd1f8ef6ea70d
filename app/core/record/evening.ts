/*
 * The lanes over time: what each swam, beside what it was to swim, by part. Times are in ms since the run was opened.
 */

import type { Plan } from '../plan/plan.ts';
import { plannedTimes } from '../plan/schedule.ts';
import { timeToFinish } from '../plan/totals.ts';
import type { Leave } from '../run/record.ts';
import { DAY, MINUTE, SECOND, type Millis } from '../units.ts';
import type { Span } from './course/spans.ts';
import { stopTotals, type LaneStop } from './course/stops.ts';

export interface PartBar {
  readonly part: string;
  readonly fromMs: Millis;
  readonly toMs: Millis;
}

export interface LaneEvening {
  readonly lane: number;
  readonly swum: readonly PartBar[];
  readonly planned: readonly PartBar[];
  readonly stopped: readonly { readonly fromMs: Millis; readonly toMs: Millis }[];
}

export interface Evening {
  /** In lane order. */
  readonly lanes: readonly LaneEvening[];
  /** From the start to the finish of the session; null without one of them. */
  readonly bookedMs: Millis | null;
  /** How many Stops there were, one that only held what follows among them; and for how long lanes stood in all. */
  readonly stops: { readonly count: number; readonly timeMs: Millis };
}

type PartLeave = Leave & { readonly part: string };

export interface EveningOf {
  readonly plan: Plan;
  readonly openedAtTimeOfDay: Millis;
  readonly duration: Millis;
  readonly lanes: readonly { readonly lane: number; readonly leaves: readonly PartLeave[] }[];
  readonly spans: readonly Span[];
  readonly stops: readonly LaneStop[];
}

export function eveningOf(run: EveningOf): Evening {
  const { plan, spans, stops, duration } = run;
  const { startsAt, finishBy } = plan.session;
  const { count, time } = stopTotals(stops);
  const plannedFrom =
    startsAt === null ? (spans[0]?.from ?? 0) : sinceOpening(startsAt * MINUTE, run.openedAtTimeOfDay);
  return {
    lanes: run.lanes.map(({ lane, leaves }, index) => ({
      lane,
      swum: swumBars(leaves, spans, duration),
      planned: plannedBars(plan, index, plannedFrom),
      stopped: stops.filter((stop) => stop.lane === lane).map(({ from, to }) => ({ fromMs: from, toMs: to })),
    })),
    bookedMs: timeToFinish(startsAt, finishBy),
    stops: { count, timeMs: time },
  };
}

/** The nearest one: a session may be opened before its start or after it, also over midnight. */
function sinceOpening(timeOfDay: Millis, openedAt: Millis): Millis {
  const since = timeOfDay - openedAt;
  return since > DAY / 2 ? since - DAY : since < -DAY / 2 ? since + DAY : since;
}

/** A rep goes on for its interval, an untimed set to the end of its stretch, and either to the lane's next leave at most. */
function swumBars(leaves: readonly PartLeave[], spans: readonly Span[], duration: Millis): readonly PartBar[] {
  return joined(
    leaves.map(({ part, at, rep }, index) => {
      const stretch = rep.set.untimed ? spans.find(({ from, to }) => from <= at && at < to)?.to : undefined;
      const end = Math.min(stretch ?? at + rep.interval, leaves[index + 1]?.at ?? duration, duration);
      return { part, fromMs: at, toMs: Math.max(at, end) };
    }),
  );
}

function plannedBars(plan: Plan, lane: number, from: Millis): readonly PartBar[] {
  const times = plannedTimes(plan);
  const bars: PartBar[] = [];
  plan.stretches.forEach(({ part, lanes }, index) => {
    const own = lanes[lane];
    const first = own?.reps[0];
    const start = from + times[index]!.start;
    if (own && first) bars.push({ part, fromMs: start + first.offset, toMs: start + own.length });
  });
  return joined(bars);
}

/** Bars of one part between which nothing lies are one. */
function joined(bars: readonly PartBar[]): readonly PartBar[] {
  const all: PartBar[] = [];
  for (const bar of bars) {
    const last = all[all.length - 1];
    if (last && last.part === bar.part && bar.fromMs - last.toMs < SECOND)
      all.splice(-1, 1, { ...last, toMs: bar.toMs });
    else all.push(bar);
  }
  return all;
}
