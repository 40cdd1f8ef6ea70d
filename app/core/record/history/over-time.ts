/*
 * What the runs of a history come to: by week, by lane, and the paces that tests gave. Distances of pools in the other
 * unit are turned into that of the newest run.
 */

import { dayAt, daysSinceMonday, dayNumber, isoDay, readDay } from '../../day.ts';
import type { LengthUnit, Millis } from '../../units.ts';
import type { HistoryRun } from './history-run.ts';
import { loadByWeek } from './load.ts';

export interface WeekOf {
  /** The Monday on which it begins: "2026-11-23". */
  readonly monday: string;
  readonly runs: number;
  readonly planned: number;
  readonly distance: number;
  /** How many of the runs have a load: the sums are of those alone. */
  readonly loaded: number;
  readonly load: number;
  /** null where no run has a load, or all days were the same. */
  readonly monotony: number | null;
  readonly strain: number | null;
}

export interface LaneOf {
  readonly lane: number;
  readonly runs: number;
  readonly planned: number;
  readonly distance: number;
}

export interface TestedPace {
  readonly lane: number;
  readonly day: string;
  readonly css: Millis;
}

/** In metres, or yards where the newest run was in yards. */
export function unitOf(runs: readonly HistoryRun[]): LengthUnit {
  return runs[0]?.unit ?? 'm';
}

/** Every week with a run, the earliest first. `runs`: the newest first. */
export function weeksOf(runs: readonly HistoryRun[]): readonly WeekOf[] {
  const unit = unitOf(runs);
  const sums = new Map<string, { runs: number; planned: number; distance: number; loaded: number }>();
  const loads: { day: string; load: number }[] = [];
  for (const run of [...runs].reverse()) {
    const day = run.openedAt.slice(0, 10);
    const monday = mondayOf(day);
    const sum = sums.get(monday) ?? { runs: 0, planned: 0, distance: 0, loaded: 0 };
    sums.set(monday, {
      runs: sum.runs + 1,
      planned: sum.planned + inUnit(run.plannedDistance, run.unit, unit),
      distance: sum.distance + inUnit(run.distance, run.unit, unit),
      loaded: sum.loaded + (run.load === null ? 0 : 1),
    });
    if (run.load !== null) loads.push({ day, load: run.load });
  }
  const byWeek = new Map(loadByWeek(loads).map((week) => [week.monday, week]));
  return Array.from(sums)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([monday, { runs: count, planned, distance, loaded }]) => {
      const { total = 0, monotony = null, strain = null } = byWeek.get(monday) ?? {};
      return {
        monday,
        runs: count,
        planned: Math.round(planned),
        distance: Math.round(distance),
        loaded,
        load: total,
        monotony,
        strain,
      };
    });
}

/** Every lane that had something to swim, by number. */
export function lanesOf(runs: readonly HistoryRun[]): readonly LaneOf[] {
  const unit = unitOf(runs);
  const sums = new Map<number, { runs: number; planned: number; distance: number }>();
  for (const run of runs) {
    for (const { lane, plannedDistance, distance } of run.lanes) {
      const sum = sums.get(lane) ?? { runs: 0, planned: 0, distance: 0 };
      sums.set(lane, {
        runs: sum.runs + 1,
        planned: sum.planned + inUnit(plannedDistance, run.unit, unit),
        distance: sum.distance + inUnit(distance, run.unit, unit),
      });
    }
  }
  return Array.from(sums)
    .sort(([a], [b]) => a - b)
    .map(([lane, sum]) => ({
      lane,
      runs: sum.runs,
      planned: Math.round(sum.planned),
      distance: Math.round(sum.distance),
    }));
}

/** By lane, then by day. Those of pools in the other unit are left out: a pace for 100 yd is none for 100 m. */
export function testedPaces(runs: readonly HistoryRun[]): readonly TestedPace[] {
  const unit = unitOf(runs);
  const paces: TestedPace[] = [];
  for (const run of runs) {
    if (run.unit !== unit) continue;
    for (const { lane, cssMs } of run.css) paces.push({ lane, day: run.openedAt.slice(0, 10), css: cssMs });
  }
  return paces.sort((a, b) => a.lane - b.lane || (a.day < b.day ? -1 : 1));
}

function mondayOf(iso: string): string {
  const day = readDay(iso);
  if (!day) throw new Error(`${iso} is no day`);
  return isoDay(dayAt(dayNumber(day) - daysSinceMonday(day)));
}

/** A yard is 0.9144 m. */
function inUnit(distance: number, from: LengthUnit, to: LengthUnit): number {
  if (from === to) return distance;
  return from === 'yd' ? distance * 0.9144 : distance / 0.9144;
}
