/*
 * Checks what one line asks of one lane: in every rep that is really swum, the interval must be above 0 and at most
 * an hour, and the target above 0.
 */

import type { Millis, Tenths } from '../../units.ts';
import type { Ratio } from '../../ratio.ts';
import { lanesNamed } from '../../words/lanes.ts';
import { reading } from '../../words/time/reading.ts';
import { expectedSwim, intervalByPace, intervalByRest, paceOf, targetOf } from './pace.ts';
import type { Hold, Lane, Timing } from '../session.ts';
import type { Flaw } from '../values/flaw.ts';
import { intervalFlaw } from '../values/values.ts';

export interface LineForLane {
  /** null if the lane's own line has a fault: then only what needs no pace is checked. */
  readonly lane: Lane | null;
  /** The lane's place in lane order, for the lists of the timing. */
  readonly index: number;
  readonly timing: Timing;
  readonly hold: Hold | undefined;
  readonly factor: Ratio;
  readonly grid: Millis;
  /** Indexes into the line of its interval or rest, and of its target. */
  readonly timingAt: number;
  readonly holdAt: number;
}

/** The most reps that a set or a timed block may have. */
const MOST_REPS = 500;

/** The first thing wrong with `count` reps of one distance, or null. */
export function judgeReps(asked: LineForLane, distance: Tenths, count: number): Flaw | null {
  // Intervals change by the same step from rep to rep, so checking the first and the last is enough.
  return judgeTarget(asked, distance) ?? judgeInterval(asked, distance, 0) ?? judgeInterval(asked, distance, count - 1);
}

/** The first thing wrong with one rep (from 0), or null. */
export function judgeRep(asked: LineForLane, distance: Tenths, rep: number): Flaw | null {
  return judgeTarget(asked, distance) ?? judgeInterval(asked, distance, rep);
}

/**
 * How many reps fit in a block's time, 1 to 500. Or the flaw of one of them, or that none fits. If the lane's pace is
 * not known, the count is 1.
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
    `not one rep fits${where}: a rep takes ${takes} and the block lasts ${reading(time)}: ` +
    `give the block ${takes} or more, or write shorter reps`;
  return { at: timingAt, message };
}

function stepOf({ timing }: LineForLane): Millis {
  return timing.kind === 'interval' ? timing.step : 0;
}

function judgeTarget({ hold, lane, holdAt }: LineForLane, distance: Tenths): Flaw | null {
  if (hold?.kind !== 'css' || !lane) return null;
  if (lane.css === null) {
    return withoutCss(holdAt, 'to hold', [lane.number]);
  }
  if (targetOf(lane, hold, distance)! > 0) return null;
  return { at: holdAt, message: `the target in lane ${lane.number} is 0:00 or less: write one above 0:00` };
}

/** That lanes have no css for what the line asks of them. */
export function withoutCss(at: number, css: 'to hold' | 'for an interval', lanes: readonly number[]): Flaw {
  const lacks = { css, lane: lanes[0]! };
  const [named, isOne] = [lanesNamed(lanes), lanes.length === 1];
  const message =
    css === 'to hold'
      ? `${named} ${isOne ? 'has' : 'have'} no css to hold: give ${isOne ? 'the lane' : 'each'} a css, or write a time after hold`
      : `@ css in ${named}, which ${isOne ? 'has' : 'have'} no css: give ${isOne ? 'the lane' : 'each'} one, or write the interval`;
  return { at, message, lacks };
}

function judgeInterval(asked: LineForLane, distance: Tenths, rep: number): Flaw | null {
  if (asked.lane?.css === null && asked.timing.kind === 'interval' && asked.timing.lanes[asked.index]!.kind === 'css') {
    return withoutCss(asked.timingAt, 'for an interval', [asked.lane.number]);
  }
  const interval = intervalAtRep(asked, distance, rep);
  const flaw = interval === null ? null : intervalFlaw(interval, asked.timingAt);
  if (!flaw) return null;
  const where = asked.lane ? `in lane ${asked.lane.number}, ` : '';
  return { at: flaw.at, message: `${where}rep ${rep + 1}: ${flaw.message}` };
}

/** The interval of a rep (from 0); null for an untimed set, or if it depends on a pace that is not known. */
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
