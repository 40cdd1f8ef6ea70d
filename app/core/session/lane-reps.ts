/*
 * What one line asks of one lane, rep by rep: whether every interval is above 0 and at most an hour,
 * and every target above 0, in reps that are really swum.
 */

import type { Millis, Tenths } from '../units.ts';
import type { Ratio } from '../ratio.ts';
import { reading } from '../reading.ts';
import { expectedSwim, intervalByPace, intervalByRest, paceOf, targetOf } from './pace.ts';
import type { Hold, Lane, Timing } from './session.ts';
import type { Flaw } from './flaw.ts';
import { intervalFlaw } from './values.ts';

export interface LineForLane {
  /** null where the lane's own line is at fault: then only what needs no pace is judged. */
  readonly lane: Lane | null;
  /** The lane's place in lane order, for the lists of the timing. */
  readonly index: number;
  readonly timing: Timing;
  readonly hold: Hold | undefined;
  readonly factor: Ratio;
  readonly grid: Millis;
  /** Where interval or rest, and target, stand in the line. */
  readonly timingAt: number;
  readonly holdAt: number;
}

/** Most reps of a set, and of a timed block. */
const MOST_REPS = 500;

/** The first thing wrong with `count` reps of one distance, or null. */
export function judgeReps(asked: LineForLane, distance: Tenths, count: number): Flaw | null {
  // Intervals change evenly from rep to rep, so the first and the last show all.
  return judgeTarget(asked, distance) ?? judgeInterval(asked, distance, 0) ?? judgeInterval(asked, distance, count - 1);
}

/** The first thing wrong with one rep (from 0), or null. */
export function judgeRep(asked: LineForLane, distance: Tenths, rep: number): Flaw | null {
  return judgeTarget(asked, distance) ?? judgeInterval(asked, distance, rep);
}

/**
 * How many reps fit in a block's time by their intervals, 1 to 500; or what is wrong: with one of them, or
 * that not even one fits. Where nothing is known of the lane's pace it counts as one.
 */
export function repsInBlock(asked: LineForLane, distance: Tenths, time: Millis): { readonly count: number } | Flaw {
  const flaw = judgeReps(asked, distance, 1);
  if (flaw) return flaw;
  const first = intervalAtRep(asked, distance, 0);
  const step = stepOf(asked);
  if (first === null) return { count: 1 };
  if (first > time) return noneFits(asked, first, time);
  const tooMany = {
    at: 0,
    message: `more than ${MOST_REPS} reps fit in the block: write a longer interval or a shorter time`,
  };
  let used = first;
  for (let count = 1; ; count += 1) {
    const interval = first + count * step;
    if (used + interval > time) return judgeInterval(asked, distance, count - 1) ?? { count };
    if (interval <= 0) return judgeInterval(asked, distance, count)!;
    if (count === MOST_REPS) return tooMany;
    used += interval;
  }
}

function noneFits({ lane, timingAt }: LineForLane, interval: Millis, time: Millis): Flaw {
  const where = lane ? ` in lane ${lane.number}` : '';
  const takes = reading(interval);
  const message =
    `not one rep fits${where}: it takes ${takes} and the block ${reading(time)}: ` +
    `give the block ${takes} or more, or write shorter reps`;
  return { at: timingAt, message };
}

function stepOf({ timing }: LineForLane): Millis {
  return timing.kind === 'interval' ? timing.step : 0;
}

function judgeTarget({ hold, lane, holdAt }: LineForLane, distance: Tenths): Flaw | null {
  if (hold?.kind !== 'css' || !lane) return null;
  if (lane.css === null) {
    const message = `hold css in lane ${lane.number}, which has no css: give the lane one, or hold a time`;
    return { at: holdAt, message };
  }
  if (targetOf(lane, hold, distance)! > 0) return null;
  return { at: holdAt, message: `a target of 0:00 or less in lane ${lane.number}: it must be above 0` };
}

function judgeInterval(asked: LineForLane, distance: Tenths, rep: number): Flaw | null {
  if (asked.lane?.css === null && asked.timing.kind === 'interval' && asked.timing.lanes[asked.index]!.kind === 'css') {
    const message = `@ css in lane ${asked.lane.number}, which has no css: give the lane one, or write the interval`;
    return { at: asked.timingAt, message };
  }
  const interval = intervalAtRep(asked, distance, rep);
  const flaw = interval === null ? null : intervalFlaw(interval, asked.timingAt);
  if (!flaw) return null;
  const where = asked.lane ? `in lane ${asked.lane.number}, ` : '';
  return { at: flaw.at, message: `${where}rep ${rep + 1}: ${flaw.message}` };
}

/** null for an untimed set, and where it rests on a pace that is not known. */
function intervalAtRep(asked: LineForLane, distance: Tenths, rep: number): Millis | null {
  const { timing, index, lane, grid } = asked;
  if (timing.kind === 'untimed') return null;
  if (timing.kind === 'interval') {
    const written = timing.lanes[index]!;
    if (written.kind === 'time') return written.time + rep * timing.step;
    const pace = lane && paceOf(written, lane);
    return pace === null ? null : intervalByPace(pace, distance, written.plus, grid) + rep * timing.step;
  }
  if (!lane) return null;
  const expected = expectedSwim(lane, distance, asked.factor, targetOf(lane, asked.hold, distance));
  return intervalByRest(timing.lanes[index]!, expected, grid);
}
