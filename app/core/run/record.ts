/*
 * The record of a run: the leaves that have happened, in order.
 */

import type { Millis } from '../units.ts';
import type { Pending, RunState } from './state.ts';

/** One leave that happened. */
export interface Leave {
  readonly lane: number;
  /** The index that the stretch had at the time. */
  readonly stretch: number;
  readonly rep: Pending;
  readonly at: Millis;
  readonly swimmers: number;
  readonly gap: Millis;
}

/**
 * A time in which the program was not running, in ms since the run was opened. What left after `from`, up to and
 * including `to`, was not called.
 */
export interface Away {
  readonly from: Millis;
  readonly to: Millis;
}

export function wasCalled({ at }: Leave, away: readonly Away[]): boolean {
  return away.every(({ from, to }) => at <= from || at > to);
}

/** The lanes in which swimmers behind their lead were due in that time, by number. */
export function followersLeaving(leaves: readonly Leave[], { from, to }: Away): readonly number[] {
  const due = leaves.filter(({ at: lead, swimmers, gap }) =>
    Array.from({ length: swimmers - 1 }, (_, behind) => lead + (behind + 1) * gap).some((at) => at > from && at <= to),
  );
  return [...new Set(due.map(({ lane }) => lane))].sort((a, b) => a - b);
}

/** The leaves of a state after a time (all by default), by time and then by lane number. */
export function leavesOf(state: RunState, after: Millis = -Infinity): readonly Leave[] {
  const leaves: Leave[] = [];
  for (const { lane, stretch, reps, from, to, origin, swimmers, gap } of state.departed) {
    if (origin + reps[to - 1]!.offset <= after) continue;
    for (let index = from; index < to; index++) {
      const rep = reps[index]!;
      const at = origin + rep.offset;
      if (at > after) leaves.push({ lane, stretch, rep, at, swimmers, gap });
    }
  }
  return leaves.sort((a, b) => a.at - b.at || a.lane - b.lane);
}

/** Whether two leaves have the same lane, rep and time. If a rewrite put another swim on the line, the reps differ. */
export function sameLeave(a: Leave, b: Leave): boolean {
  return (
    a.lane === b.lane &&
    a.at === b.at &&
    a.rep.rep === b.rep.rep &&
    a.rep.of === b.rep.of &&
    a.rep.distance === b.rep.distance &&
    a.rep.set.line === b.rep.set.line &&
    a.rep.set.rounds.length === b.rep.set.rounds.length &&
    a.rep.set.rounds.every(({ round }, depth) => round === b.rep.set.rounds[depth]!.round)
  );
}
