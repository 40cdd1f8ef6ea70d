/*
 * What the history draws of a run: who swam how far, how hard and how long it was, and which paces came out of tests.
 * Times are in ms, distances in the pool's unit.
 */

import type { LengthUnit, Tenths } from '../../units.ts';
import type { Attendance } from '../afterwards.ts';
import type { Ended } from '../kept-run.ts';
import type { LaneRecord, SwumRecord } from '../record.ts';
import { cssTestsOf } from '../times/set-times.ts';

export interface HistoryRun {
  readonly run: string;
  readonly title: string;
  /** "2026-11-26T19:30:00". */
  readonly openedAt: string;
  readonly ended: Ended;
  readonly durationMs: number;
  readonly unit: LengthUnit;
  /** Of all lanes together. */
  readonly plannedDistance: number;
  readonly distance: number;
  readonly lanes: readonly HistoryLane[];
  /** Who was there, a lane each; null where nobody has said. */
  readonly attendance: readonly Attendance[] | null;
  readonly effort: number | null;
  readonly load: number | null;
  readonly notes: readonly string[];
  /** From tests that came to a pace. */
  readonly css: readonly { readonly lane: number; readonly cssMs: number; readonly caution: string | null }[];
}

export interface HistoryLane {
  readonly lane: number;
  readonly plannedDistance: number;
  readonly distance: number;
}

export function historyRun(record: SwumRecord): HistoryRun {
  const { run, title, openedAt, ended, duration, unit, added, load } = record;
  const lanes = record.lanes.map(({ lane, planned, distance }) => {
    return { lane, plannedDistance: planned.distance / 10, distance: distance / 10 };
  });
  const sum = (of: (lane: LaneRecord) => Tenths): number =>
    record.lanes.reduce((tenths, lane) => tenths + of(lane), 0) / 10;
  return {
    run,
    title,
    openedAt,
    ended,
    durationMs: duration,
    unit,
    plannedDistance: sum(({ planned }) => planned.distance),
    distance: sum(({ distance }) => distance),
    lanes,
    attendance: added.attendance,
    effort: added.effort,
    load,
    notes: added.notes,
    css: testedPaces(record),
  };
}

function testedPaces(record: SwumRecord): HistoryRun['css'] {
  const paces: { lane: number; cssMs: number; caution: string | null }[] = [];
  for (const { lane, test } of cssTestsOf(record)) {
    if (test.ok) paces.push({ lane, cssMs: test.css, caution: test.caution });
  }
  return paces;
}

/** What it is found by, besides its day: the words that people gave it. */
export function searchedWords({ title, parts, lanes, marks, added }: SwumRecord): readonly string[] {
  const words = new Set([title, ...parts.map(({ part }) => part), ...added.notes]);
  for (const { names } of [...lanes, ...(added.attendance ?? [])]) for (const name of names ?? []) words.add(name);
  for (const mark of marks) words.add(mark);
  words.delete('');
  return Array.from(words);
}
