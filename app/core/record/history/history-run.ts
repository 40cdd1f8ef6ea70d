/*
 * What the history draws of a run: who swam how far, how hard and how long it was, and which paces came out of tests.
 * Times are in ms, distances in the pool's unit.
 */

import type { LengthUnit, Tenths } from '../../units.ts';
import type { Ended } from '../kept-run.ts';
import type { LaneRecord, RunRecord } from '../record.ts';
import { markWords } from '../tables/record-csv.ts';
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
  readonly effort: number | null;
  readonly load: number | null;
  /** From tests that came to a pace. */
  readonly css: readonly { readonly lane: number; readonly cssMs: number; readonly caution: string | null }[];
}

export interface HistoryLane {
  readonly lane: number;
  readonly plannedDistance: number;
  readonly distance: number;
}

export function historyRun(record: RunRecord): HistoryRun {
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
    effort: added.effort,
    load,
    css: testedPaces(record),
  };
}

function testedPaces(record: RunRecord): HistoryRun['css'] {
  const paces: { lane: number; cssMs: number; caution: string | null }[] = [];
  for (const { lane, test } of cssTestsOf(record)) {
    if (test.ok) paces.push({ lane, cssMs: test.css, caution: test.caution });
  }
  return paces;
}

/** What it is found by, besides its day: the words that people gave it. */
export function searchedWords({ title, parts, lanes, commands, added }: RunRecord): readonly string[] {
  const words = new Set([title, ...parts.map(({ part }) => part), ...added.notes]);
  for (const { names } of [...lanes, ...(added.attendance ?? [])]) for (const name of names ?? []) words.add(name);
  for (const given of commands) words.add(markWords(given));
  words.delete('');
  return Array.from(words);
}
