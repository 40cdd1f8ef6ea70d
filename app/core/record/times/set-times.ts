/*
 * The hand times of a run, a set of a lane each: pace, against the target, and how they fade. A 400 and a 200 in one
 * part give the lane's critical swim speed.
 */

import { cssOf, type CssTest } from '../../pace/css-trials.ts';
import type { Leave } from '../../run/record.ts';
import type { Millis } from '../../units.ts';
import { fadeOf, paceOf, toTenth } from './hand-time.ts';
import type { LeaveRecord, SwumRecord } from '../record.ts';

export interface SetTimes {
  readonly lane: number;
  /** The first rep that was timed, which says what the set was. */
  readonly first: LeaveRecord;
  readonly reps: readonly RepTime[];
  /** Slower in the second half than in the first, a 100; null for fewer than two. */
  readonly fade: Millis | null;
}

/** In tenths, as it is shown. */
export interface RepTime {
  readonly rep: number;
  readonly of: number;
  /** When it left. */
  readonly at: Millis;
  readonly time: Millis;
  /** For 100; null for a swim by time. */
  readonly pace: Millis | null;
  /** Over its target, below 0 under it; null without one. */
  readonly over: Millis | null;
}

/** One passage through a set in a lane after the other, by lane and time. */
export function setTimesOf({ lanes }: SwumRecord): readonly SetTimes[] {
  const groups: Timed[][] = [];
  for (const { leaves } of lanes) {
    let group: Timed[] = [];
    for (const leave of leaves.filter(isTimed)) {
      if (group.length === 0 || group[0]!.rep.set !== leave.rep.set) groups.push((group = []));
      group.push(leave);
    }
  }
  return groups.map((group) => {
    const reps = group.map((leave) => repTime(leave, leave.time));
    const paces = reps.map(({ pace }) => pace).filter((pace): pace is Millis => pace !== null);
    return { lane: group[0]!.lane, first: group[0]!, reps, fade: fadeOf(paces) };
  });
}

/** By lane, of each part with one timed 400 and one timed 200. */
export function cssTestsOf({ lanes }: SwumRecord): readonly { readonly lane: number; readonly test: CssTest }[] {
  const tests: { lane: number; test: CssTest }[] = [];
  for (const { lane, leaves } of lanes) {
    const timed = leaves.filter(isTimed);
    for (const part of new Set(timed.map((leave) => leave.part))) {
      const trials = timed
        .filter((leave) => leave.part === part && [2000, 4000].includes(leave.rep.distance))
        .map(({ rep, time }) => ({ distance: rep.distance, time: toTenth(time) }));
      if (trials.length === 2 && trials[0]!.distance !== trials[1]!.distance) tests.push({ lane, test: cssOf(trials) });
    }
  }
  return tests;
}

type Timed = LeaveRecord & { readonly time: Millis };

function isTimed(leave: LeaveRecord): leave is Timed {
  return leave.time !== null;
}

/** The target of an untimed set is for one of its reps, and its time for the whole. */
export function repTime({ rep, at }: Pick<Leave, 'rep' | 'at'>, taken: Millis): RepTime {
  const time = toTenth(taken);
  const pace = paceOf(time, rep.distance);
  const over = rep.target === null || rep.set.untimed ? null : time - toTenth(rep.target);
  return { rep: rep.rep, of: rep.of, at, time, pace: pace === null ? null : toTenth(pace), over };
}
