/*
 * What the review of a run shows: the record, and what is worked out of it. Times are in ms, distances in the pool's
 * unit.
 */

import type { LengthUnit } from '../../units.ts';
import { notRunningText } from '../../words/away.ts';
import { leavesText } from '../../words/leaves.ts';
import { repText } from '../../words/rep.ts';
import type { Away } from '../../run/record.ts';
import type { Evening } from '../evening.ts';
import { deedsOf } from '../deeds.ts';
import { recordJson, type RecordJson } from './record-json.ts';
import type { LeaveRecord, RunRecord } from '../record.ts';
import { cssTestsOf, setTimesOf } from '../times/set-times.ts';

export interface ReviewJson {
  readonly record: RecordJson;
  readonly unit: LengthUnit;
  /** By the clock of the place, in ms after midnight. */
  readonly openedAtTimeOfDayMs: number;
  /** In lane order. */
  readonly plannedReps: readonly number[];
  /** Every command that was accepted but the undos, and every time in which the program was not running, in words, by time. */
  readonly happened: readonly ReviewDeed[];
  /** Sets with hand times: one passage of a lane through a set each. */
  readonly sets: readonly ReviewSet[];
  readonly css: readonly ReviewCss[];
  readonly evening: Evening;
  /** While the program was not there, from when to when, and which leaves fell due then, in words; those with any. */
  readonly notCalled: readonly { readonly fromMs: number; readonly toMs: number; readonly leaves: string }[];
}

export interface ReviewDeed {
  /** Its place among all that were accepted, from 0; null for what is no command. */
  readonly command: number | null;
  readonly atMs: number;
  readonly isMark: boolean;
  readonly undone: boolean;
  /** Those it named. */
  readonly lanes: readonly number[];
  /** The words of a mark as they were given, or what another command did or happened; the name of one that was undone. */
  readonly words: string;
}

export interface ReviewSet {
  readonly lane: number;
  readonly part: string;
  readonly line: number;
  /** "50 fast". */
  readonly words: string;
  readonly reps: readonly {
    readonly rep: number;
    readonly of: number;
    /** When it left. */
    readonly atMs: number;
    readonly timeMs: number;
    /** For 100; null for a swim by time. */
    readonly paceMs: number | null;
    /** Over its target, below 0 under it; null without one. */
    readonly overMs: number | null;
  }[];
  /** Slower a 100 in the second half than in the first; null for fewer than two. */
  readonly fadeMs: number | null;
}

/** By a 400 and a 200 of one part; `why`: why they come to no pace. */
export type ReviewCss =
  | { readonly lane: number; readonly cssMs: number; readonly caution: string | null; readonly why: null }
  | { readonly lane: number; readonly cssMs: null; readonly caution: null; readonly why: string };

export function reviewJson(record: RunRecord, away: readonly Away[]): ReviewJson {
  const { unit } = record;
  return {
    record: recordJson(record),
    unit,
    openedAtTimeOfDayMs: record.openedAtTimeOfDay,
    plannedReps: record.lanes.map(({ planned }) => planned.leaves),
    happened: happenedIn(record),
    sets: setTimesOf(record).map(({ lane, first, reps, fade }) => ({
      lane,
      part: first.part,
      line: first.rep.set.line,
      words: repText(first.rep, unit),
      reps: reps.map(({ rep, of, at, time, pace, over }) => {
        return { rep, of, atMs: at, timeMs: time, paceMs: pace, overMs: over };
      }),
      fadeMs: fade,
    })),
    css: cssTestsOf(record).map(({ lane, test }) =>
      test.ok
        ? { lane, cssMs: test.css, caution: test.caution, why: null }
        : { lane, cssMs: null, caution: null, why: test.why },
    ),
    evening: record.evening,
    notCalled: notCalled(record, away),
  };
}

function happenedIn(record: RunRecord): readonly ReviewDeed[] {
  const told = record.notRunning.map(({ from, to, words }) => {
    // Which leaves those were stands there, and would be told twice.
    const isListed = leavesIn(record, { from, to }).length > 0;
    const said = isListed ? `${notRunningText(to - from)}. Leaves in that time: see “Not called”.` : words;
    return { command: null, atMs: from, isMark: false, undone: false, lanes: [], words: said };
  });
  const deeds = deedsOf(record).map(({ place, at, command, lanes, undone, words }) => {
    return { command: place, atMs: at, isMark: command.do === 'mark', undone, lanes, words };
  });
  return [...deeds, ...told].sort((a, b) => a.atMs - b.atMs);
}

function notCalled(record: RunRecord, away: readonly Away[]): ReviewJson['notCalled'] {
  return away
    .map((time) => ({ ...time, missed: leavesIn(record, time) }))
    .filter(({ missed }) => missed.length > 0)
    .map(({ from, to, missed }) => ({ fromMs: from, toMs: to, leaves: leavesText(missed, Infinity) }));
}

function leavesIn({ lanes }: RunRecord, { from, to }: Away): readonly LeaveRecord[] {
  return lanes.reduce(
    (all, { leaves }) => all.concat(leaves.filter(({ at }) => at > from && at <= to)),
    [] as LeaveRecord[],
  );
}
