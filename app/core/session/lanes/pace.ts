/*
 * From a lane's pace to intervals, targets and expected swim times (README, "Writing a session": the table
 * of lines). Sums are exact up to the one rounding that the rule names. Expected times follow common practice and are
 * estimates; whatever is derived from them is marked as one.
 */

import type { Hold, Interval, Lane, Timing } from '../session.ts';
import type { Millis, Tenths } from '../../units.ts';
import { SECOND } from '../../units.ts';
import { add, ceilTo, compare, floorDivide, multiply, ratio, roundTo, type Ratio } from '../../ratio.ts';

/** The base of a lane that has neither base nor css. */
export const ASSUMED_BASE: Millis = 120_000;

/** How much slower than css a swimmer cruises. */
const CRUISE = ratio(105, 100);

/** A lane's interval per 100 from its css: `ceil_grid(css × 1.05 + 10 s)`. */
export function baseFromCss(css: Millis, grid: Millis): Millis {
  return ceilTo(grid, add(multiply(ratio(css), CRUISE), ratio(10 * SECOND)));
}

/** The slowest css, to the tenth of a second, from which this base comes; for a short base it is none that a lane can have. */
export function cssFromBase(base: Millis): Millis {
  return floorDivide(base - 10 * SECOND, 105) * 100;
}

/** The interval of one rep by the lane's base or css, in whole ms on the grid; may be below 1 where `plus` is negative. */
export function intervalByPace(pace: Millis, distance: Tenths, plus: Millis, grid: Millis): Millis {
  return ceilTo(grid, add(per100(pace, distance), ratio(plus)));
}

/** The pace per 100 that an interval rests on; null where it rests on none, or on a css that the lane has not. */
export function paceOf(interval: Interval, lane: Lane): Millis | null {
  return interval.kind === 'time' ? null : interval.kind === 'base' ? lane.base : lane.css;
}

/** The interval of one rep by its rest: the expected swim plus the rest, rounded up to the grid. */
export function intervalByRest(rest: Millis, expected: Ratio, grid: Millis): Millis {
  return ceilTo(grid, add(expected, ratio(rest)));
}

/** The target of one rep in ms; null without a hold, or if it asks for a css that the lane does not have. */
export function targetOf(lane: Lane, hold: Hold | undefined, distance: Tenths): Millis | null {
  if (!hold) return null;
  if (hold.kind === 'time') return hold.time;
  if (lane.css === null) return null;
  return roundTo(100, per100(lane.css + hold.plus, distance));
}

/** The time one rep is expected to take: its target, or cruise × distance × the factor of its words. */
export function expectedSwim(lane: Lane, distance: Tenths, factor: Ratio, target: Millis | null): Ratio {
  if (target !== null) return ratio(target);
  return multiply(multiply(cruise(lane), ratio(distance, 1000)), factor);
}

/**
 * The interval of a set's first rep, in whole ms. laneIndex: the lane's place in lane order. Not yet checked: it can
 * be 0 or less, or more than an hour.
 */
export function firstInterval(
  timing: Exclude<Timing, { kind: 'untimed' }>,
  laneIndex: number,
  lane: Lane,
  distance: Tenths,
  expected: Ratio,
  grid: Millis,
): Millis {
  if (timing.kind === 'rest') return intervalByRest(timing.lanes[laneIndex]!, expected, grid);
  const interval = timing.lanes[laneIndex]!;
  if (interval.kind === 'time') return interval.time;
  // A lane that swims by its css has one: the text would be at fault.
  return intervalByPace(paceOf(interval, lane)!, distance, interval.plus, grid);
}

/** The factor of a set's words, or of the name of the part it stands in; the largest that applies. */
export function factorOf(words: string, partName: string): Ratio {
  const text = words.replace(DASHES, '-');
  if (KICK.test(text)) return ratio(14, 10);
  if (DRILL.test(text)) return ratio(125, 100);
  if (EASY.test(text) || isSwimDown(partName)) return ratio(11, 10);
  return ratio(1);
}

/** Whether a part's whole name is swim-down, warm-down or cool-down (or with a space). */
export function isSwimDown(partName: string): boolean {
  return /^(?:swim|warm|cool)[- ]down$/i.test(partName.replace(DASHES, '-'));
}

/** Dashes that keyboards and phones type for a hyphen. */
const DASHES = /[\u2010-\u2015\u2212]/g;

/** Matches whole words only; a hyphen is part of the word. */
const KICK = /(?<![\p{L}\p{N}-])(?:kick|kicks|kicking)(?![\p{L}\p{N}-])/iu;
const DRILL = /(?<![\p{L}\p{N}-])(?:drill|drills|scull|sculls|sculling)(?![\p{L}\p{N}-])/iu;
const EASY = /(?<![\p{L}\p{N}-])(?:easy|(?:swim|warm|cool)[- ]down)(?![\p{L}\p{N}-])/iu;

/** css × 1.05, else base − 10 s but never below half of base; per 100. */
function cruise(lane: Lane): Ratio {
  if (lane.css !== null) return multiply(ratio(lane.css), CRUISE);
  const half = ratio(lane.base, 2);
  const eased = ratio(lane.base - 10 * SECOND);
  return compare(eased, half) < 0 ? half : eased;
}

function per100(pace: Millis, distance: Tenths): Ratio {
  return ratio(pace * distance, 1000);
}
