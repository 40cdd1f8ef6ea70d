/*
 * Touches, tapped as the first swimmer of a lane comes in: which rep one belongs to, and how several watches come together.
 */

import { LEAST_PACE } from '../../session/line/lane-line.ts';
import { SECOND, type LengthUnit, type Millis, type Tenths } from '../../units.ts';
import type { HandTimes } from '../afterwards.ts';

/** A leave, as far as a touch needs it. */
export interface TouchedLeave {
  readonly at: Millis;
  readonly stretch: number;
  readonly rep: { readonly distance: Tenths };
}

/** One watch for a rep; null takes back what the rep has. */
export interface Touch {
  readonly lane: number;
  /** When the rep left. */
  readonly at: Millis;
  readonly watch: Millis | null;
}

/** By World Aquatics SW 11.3 a time is made of at most three. */
const MOST_WATCHES = 3;

/** What nobody swims: of a swim by time, which has no distance. */
const LEAST: Millis = 5 * SECOND;

/** A tenth of the unit at 2.5 m/s. That is common practice: the fastest 50 m published, 20.91 s, is 2.39 m/s. */
const SOONEST: Readonly<Record<LengthUnit, Millis>> = { m: 40, yd: 36.576 };

/** Whether that is faster than anybody swims: a touch is taken for such a time, and marked. */
export function isTooSoon(time: Millis, distance: Tenths, unit: LengthUnit): boolean {
  return time < SOONEST[unit] * distance;
}

/**
 * The rep that a touch at t ends: the last that left. Where nobody can be back from it yet, the touch is of a slow
 * swimmer in the rep before, if that has no time of this watch. One that would be faster than any pace a session can
 * have is never of the rep that has just left. null where there is none. `leaves`: of one lane, by time.
 */
export function touched<Left extends TouchedLeave>(
  leaves: readonly Left[],
  t: Millis,
  unit: LengthUnit,
  hasTime: (leave: Left) => boolean,
): Left | null {
  for (let index = leaves.length - 1; index >= 0; index--) {
    const leave = leaves[index]!;
    const { distance } = leave.rep;
    const least = distance > 0 ? (LEAST_PACE * distance) / 1000 : LEAST;
    if (t - leave.at < least) continue;
    const before = leaves[index - 1];
    const isSlow = before?.stretch === leave.stretch && isTooSoon(t - leave.at, distance, unit) && !hasTime(before);
    return isSlow ? before : leave;
  }
  return null;
}

export function withTouch(times: readonly HandTimes[], { lane, at, watch }: Touch): readonly HandTimes[] {
  const isOf = (each: HandTimes): boolean => each.lane === lane && each.at === at;
  const others = times.filter((each) => !isOf(each));
  if (watch === null) return others;
  const before = times.find(isOf)?.watches ?? [];
  // The same again is the same touch, sent twice.
  const watches = before.includes(watch) || before.length >= MOST_WATCHES ? before : [...before, watch];
  return [...others, { lane, at, watches }];
}
