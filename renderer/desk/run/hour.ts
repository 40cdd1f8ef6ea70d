/*
 * The booked hour against the projection: when the session will end by the time of day, and how much
 * is in hand until the finish.
 */

import { timeOfDay, timeOfDayAfter } from '../../../app/core/reading.ts';
import { DAY, MINUTE, SECOND, type Millis, type MinuteOfDay } from '../../../app/core/units.ts';
import { finishAfter } from '../../ui/booked-finish.ts';

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
 * since then.
 */
export function hourOf(openedAt: Millis, end: Millis, finish: MinuteOfDay | null): Hour {
  const ends = endTime(openedAt + end);
  if (finish === null) return { ends, booked: null, inHand: null, inHandText: null };
  const inHand = finishAfter(openedAt, finish) - end;
  return { ends, booked: timeOfDay(finish), inHand, inHandText: inHandText(inHand) };
}

/** What a clock shows at a time of day in ms after midnight, the day before and after too: "19:58". */
export function clockTime(ofDay: Millis): string {
  const within = ((ofDay % DAY) + DAY) % DAY;
  return timeOfDayAfter(0, Math.floor(within / MINUTE) * MINUTE);
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
