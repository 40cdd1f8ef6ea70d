/*
 * The record for programs: a JSON object that other programs rely on. Times are whole milliseconds since the run was
 * opened, distances are in the pool's unit.
 */

import { leaveJson, type LeaveJson } from '../../plan/leave-json.ts';
import type { Attendance } from '../afterwards.ts';
import type { Ended } from '../kept-run.ts';
import type { GivenRecord, LaneRecord, LeaveRecord, RunRecord } from '../record.ts';

export interface RecordJson {
  readonly run: string;
  readonly title: string;
  readonly openedAt: string;
  readonly ended: Ended;
  readonly durationMs: number;
  readonly lanes: readonly RecordLaneJson[];
  readonly commands: readonly RecordCommandJson[];
  /** Times in which the program was not running, and what was not called then. */
  readonly notRunning: readonly { readonly fromMs: number; readonly toMs: number; readonly words: string }[];
  readonly parts: readonly { readonly part: string; readonly plannedMs: number; readonly durationMs: number }[];
  readonly notes: readonly string[];
  readonly attendance: readonly Attendance[] | null;
  readonly effort: number | null;
  readonly load: number | null;
}

export interface RecordLaneJson {
  readonly lane: number;
  readonly swimmers: number;
  readonly names: readonly string[] | null;
  readonly plannedDistance: number;
  readonly distance: number;
  readonly leaves: readonly RecordLeaveJson[];
}

export interface RecordLeaveJson extends LeaveJson {
  readonly called: boolean;
  readonly timeMs: number | null;
}

/** With the fields of the command; `undone` and `added` only where they are so. */
export interface RecordCommandJson {
  readonly atMs: number;
  readonly do: string;
  readonly undone?: true;
  /** Words added to a mark afterwards. */
  readonly added?: string;
  readonly [field: string]: unknown;
}

export function recordJson(record: RunRecord): RecordJson {
  const { run, title, openedAt, ended, duration, lanes, commands, notRunning, parts, added, load } = record;
  return {
    run,
    title,
    openedAt,
    ended,
    durationMs: duration,
    lanes: lanes.map(laneJson),
    commands: commands.map(commandJson),
    notRunning: notRunning.map(({ from, to, words }) => ({ fromMs: from, toMs: to, words })),
    parts: parts.map(({ part, planned, taken }) => ({ part, plannedMs: planned, durationMs: taken })),
    notes: added.notes,
    attendance: added.attendance,
    effort: added.effort,
    load,
  };
}

function laneJson({ lane, swimmers, names, planned, distance, leaves }: LaneRecord): RecordLaneJson {
  const distances = { plannedDistance: planned.distance / 10, distance: distance / 10 };
  return { lane, swimmers, names, ...distances, leaves: leaves.map(recordLeaveJson) };
}

function recordLeaveJson({ stretch, part, rep, at, called, time }: LeaveRecord): RecordLeaveJson {
  return { ...leaveJson(rep, { stretch, part, at }), called, timeMs: time };
}

function commandJson({ at, command, undone, added }: GivenRecord): RecordCommandJson {
  return { atMs: at, ...command, ...(undone ? { undone } : {}), ...(added === '' ? {} : { added }) };
}
