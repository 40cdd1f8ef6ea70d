/*
 * The booked hour against the projection: when the session will end by the time of day, and how much
 * is in hand until the finish.
 */

import { timeOfDay, timeOfDayAfter } from '../../app/core/reading.ts';
import { DAY, HOUR, MINUTE, SECOND, type Millis, type MinuteOfDay } from '../../app/core/units.ts';

export interface Hour {
  /** "20:27", rounded up: never sooner than it will be. */
  readonly ends: string;
  /** "20:30"; null without a finish. */
  readonly booked: string | null;
  /** Below 0: past the finish; null without one. */
  readonly inHand: Millis | null;
  /** "3 min in hand", "2 min over", "45 s in hand"; null without a finish. */
  readonly inHandText: string | null;
}

/**
 * openedAt: local time of day at the run's t = 0, in ms after midnight; end: the projected end, in ms
 * since then. A finish is taken as the one nearest to the opening, so that a run opened late is over.
 */
export function hourOf(openedAt: Millis, end: Millis, finish: MinuteOfDay | null): Hour {
  const ends = endTime(openedAt + end);
  if (finish === null) return { ends, booked: null, inHand: null, inHandText: null };
  const inHand = finishAfter(openedAt, finish) - end;
  return { ends, booked: timeOfDay(finish), inHand, inHandText: inHandText(inHand) };
}

/** The booked finish in ms since a run's t = 0, which was at a time of day. */
export function finishAfter(openedAt: Millis, finish: MinuteOfDay): Millis {
  return nearest(finish * MINUTE - openedAt);
}

/** What a clock shows at a time of day in ms after midnight, past midnight from 00:00 again: "19:58". */
export function clockTime(ofDay: Millis): string {
  return timeOfDayAfter(0, Math.floor(ofDay / MINUTE) * MINUTE);
}

/** The same with seconds: "19:58:05". */
export function clockTimeToSecond(ofDay: Millis): string {
  const seconds = Math.floor(ofDay / SECOND) % 60;
  return `${clockTime(ofDay)}:${seconds < 10 ? '0' : ''}${seconds}`;
}

/** A time by which something will be over, in whole minutes: a begun one counts whole. */
export function endTime(ofDay: Millis): string {
  return clockTime(Math.ceil(ofDay / MINUTE) * MINUTE);
}

function inHandText(inHand: Millis): string {
  // As with the end itself: what is in hand is rounded down, what is over up.
  const whole = (unit: Millis): number => Math.abs(Math.floor(inHand / unit));
  const minutes = whole(MINUTE);
  const hours = minutes >= 60 ? `${Math.floor(minutes / 60)} h ` : '';
  const seconds = whole(SECOND);
  const text = seconds < 60 ? `${seconds} s` : `${hours}${minutes % 60} min`;
  return `${text} ${inHand < 0 ? 'over' : 'in hand'}`;
}

/** The same time of day at most 12 hours off. */
function nearest(span: Millis): Millis {
  const half = 12 * HOUR;
  return ((((span + half) % DAY) + DAY) % DAY) - half;
}
