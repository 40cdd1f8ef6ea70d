/*
 * The timetable for programs: a JSON object that other programs rely on. Times are whole milliseconds, distances are
 * in the pool's unit, times of day are `HH:MM`.
 */

import type { Fault } from '../../core/result.ts';
import { leaveJson, type LeaveJson } from '../../core/plan/leave-json.ts';
import type { Plan, Rep, Waits } from '../../core/plan/plan.ts';
import { plannedTimes } from '../../core/plan/schedule.ts';
import { totalsOf } from '../../core/plan/totals.ts';
import type { Warning } from '../../core/plan/warnings/warning.ts';
import { warningsOf } from '../../core/plan/warnings/warnings.ts';
import { timeOfDay } from '../../core/words/time/time-of-day.ts';
import type { LengthUnit, MinuteOfDay } from '../../core/units.ts';

export interface TimetableJson {
  readonly title: string;
  readonly pool: { readonly length: number; readonly unit: LengthUnit };
  readonly startsAt: string | null;
  readonly finishBy: string | null;
  readonly durationMs: number;
  /** ms past the finish, 0 if it is not; null without a start or a finish. */
  readonly overMs: number | null;
  readonly stretches: readonly StretchJson[];
  readonly lanes: readonly LaneJson[];
  readonly notes: readonly NoteJson[];
  readonly warnings: readonly Warning[];
}

export interface NoteJson {
  readonly line: number;
  /** null with `partIndex` above the first part: it belongs to the session. */
  readonly part: string | null;
  readonly partIndex: number | null;
  readonly kind: 'note' | 'kit';
  readonly words: string;
}

export interface StretchJson {
  readonly part: string;
  readonly partIndex: number;
  readonly kind: 'swim' | 'talk' | 'break';
  readonly words: string;
  readonly waits: Waits;
  readonly startMs: number;
  readonly durationMs: number;
}

export interface LaneJson {
  readonly lane: number;
  readonly swimmers: number;
  readonly gapMs: number;
  readonly baseMs: number;
  readonly cssMs: number | null;
  readonly distance: number;
  readonly leaves: readonly TimetableLeaveJson[];
}

export interface TimetableLeaveJson extends LeaveJson {
  readonly intervalMs: number;
  readonly targetMs: number | null;
  readonly estimated: boolean;
  readonly untimed: boolean;
}

export function timetableJson(plan: Plan): TimetableJson {
  const { session } = plan;
  const times = plannedTimes(plan);
  const totals = totalsOf(plan, times);
  return {
    title: session.title ?? 'Session',
    pool: { length: session.pool.length / 100, unit: session.pool.unit },
    startsAt: dayTime(session.startsAt),
    finishBy: dayTime(session.finishBy),
    durationMs: totals.duration,
    overMs: totals.over,
    stretches: plan.stretches.map(({ part, partIndex, kind, words }, index) => {
      const { waits, start, duration } = times[index]!;
      return { part, partIndex, kind, words, waits, startMs: start, durationMs: duration };
    }),
    lanes: session.lanes.map((lane, index) => ({
      lane: lane.number,
      swimmers: lane.swimmers,
      gapMs: lane.gap,
      baseMs: lane.base,
      cssMs: lane.css,
      distance: totals.distances[index]! / 10,
      leaves: leavesOf(plan, index, times),
    })),
    notes: session.notes.map(({ line, partIndex, kind, words }) => {
      const part = partIndex === null ? null : session.parts[partIndex]!.name;
      return { line, part, partIndex, kind, words };
    }),
    warnings: warningsOf(plan),
  };
}

/** What is printed instead of a timetable if a text has faults. */
export function faultsJson(faults: readonly Fault[]): { readonly errors: readonly Fault[] } {
  return { errors: faults.map(({ line, column, message }) => ({ line, column, message })) };
}

function leavesOf(plan: Plan, lane: number, times: readonly { start: number }[]): readonly TimetableLeaveJson[] {
  const leaves: TimetableLeaveJson[] = [];
  plan.stretches.forEach(({ lanes, part }, stretch) => {
    const { start } = times[stretch]!;
    for (const rep of lanes[lane]?.reps ?? []) leaves.push(leaveOf(rep, { stretch, part, at: start + rep.offset }));
  });
  return leaves;
}

function leaveOf(rep: Rep, place: Parameters<typeof leaveJson>[1]): TimetableLeaveJson {
  return {
    ...leaveJson(rep, place),
    intervalMs: rep.interval,
    targetMs: rep.target,
    estimated: rep.estimated,
    untimed: rep.set.untimed,
  };
}

function dayTime(minute: MinuteOfDay | null): string | null {
  return minute === null ? null : timeOfDay(minute);
}
