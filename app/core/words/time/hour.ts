/*
 * The booked hour: when the session ends, what is in hand until the finish, and how far a change moves the end.
 */

import { finishAfter } from '../../run/hour/booked-finish.ts';
import { HOUR, MINUTE, SECOND, type Millis, type MinuteOfDay } from '../../units.ts';
import { isWrongHour } from './booking.ts';
import { about } from './estimate.ts';
import { reading } from './reading.ts';
import { endTime, timeOfDay } from './time-of-day.ts';

/** What rests on an estimate is marked. */
export interface Hour {
  /** "≈20:27", rounded up: never sooner than it will be. */
  readonly ends: string;
  /** "20:30"; null without a finish. */
  readonly booked: string | null;
  /** Below 0: past the finish; null without one. */
  readonly inHand: Millis | null;
  /** "≈3 min in hand", "2 min over", "45 s in hand", "finish 12 h away: check it"; null without a finish. */
  readonly inHandText: string | null;
}

/**
 * openedAt: local time of day at the run's t = 0, in ms after midnight; end: the projected end, in ms since then, and
 * whether it rests on an estimate.
 */
export function hourOf(openedAt: Millis, end: Millis, finish: MinuteOfDay | null, isEstimate: boolean): Hour {
  const mark = about(isEstimate);
  const ends = `${mark}${endTime(openedAt + end)}`;
  if (finish === null) return { ends, booked: null, inHand: null, inHandText: null };
  const inHand = finishAfter(openedAt, finish) - end;
  const text = isWrongHour(inHand)
    ? `finish ${Math.floor(inHand / HOUR)} h away: check it`
    : `${mark}${inHandText(inHand)}`;
  return { ends, booked: timeOfDay(finish), inHand, inHandText: text };
}

/** "45 s in hand", "2 h 5 min over": down while in hand, up while over, so that no more is promised than there is. */
function inHandText(inHand: Millis): string {
  const whole = (unit: Millis): number => Math.abs(Math.floor(inHand / unit));
  const seconds = whole(SECOND);
  const text = seconds < 60 ? `${seconds} s` : minutesText(whole(MINUTE));
  return `${text} ${inHand < 0 ? 'over' : 'in hand'}`;
}

/** "ends 5:35 sooner": by how much the end comes later, below 0 sooner; less than a second is nothing. */
export function endMoves(by: Millis, isEstimate = false): string {
  const seconds = Math.floor(Math.abs(by) / SECOND);
  return seconds === 0 ? 'the end stays' : `ends ${movedText(by, isEstimate)}`;
}

/** "5:35 sooner", "0:10 later", in whole seconds. */
export function movedText(by: Millis, isEstimate = false): string {
  const seconds = Math.floor(Math.abs(by) / SECOND);
  return `${about(isEstimate)}${reading(seconds * SECOND)} ${by < 0 ? 'sooner' : 'later'}`;
}

/** "23 min", "3 h 23 min", "2 h". */
function minutesText(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}
