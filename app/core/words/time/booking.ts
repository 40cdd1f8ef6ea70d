/*
 * A booking that nobody meant: with am for pm, or a wrong digit, a finish lies half a day after the start or on the next
 * day, and a session that runs over would be told that it has hours in hand.
 */

import { timeToFinish } from '../../plan/totals.ts';
import type { Session } from '../../session/session.ts';
import { HOUR, MINUTE, type Millis } from '../../units.ts';
import { durationText } from './duration.ts';
import { timeOfDay } from './time-of-day.ts';

/** No pool is booked for longer. */
const LONGEST_BOOKING: Millis = 4 * HOUR;

/** Whether so much time to a finish is a wrong hour. */
export function isWrongHour(toFinish: Millis | null): boolean {
  return toFinish !== null && toFinish > LONGEST_BOOKING;
}

/** What is to be said of a booking that nobody meant; null where it may be one. */
export function wrongHourText({ startsAt, finishBy }: Pick<Session, 'startsAt' | 'finishBy'>): string | null {
  const booked = timeToFinish(startsAt, finishBy);
  if (booked === null || !isWrongHour(booked)) return null;
  const day = finishBy! < startsAt! ? ' the next day' : '';
  const span = `${timeOfDay(startsAt!)} to ${timeOfDay(finishBy!)}${day} is ${durationText(Math.floor(booked / MINUTE) * MINUTE)}`;
  return `${span}: is an hour wrong? Check start and finish, each digit, and am or pm.`;
}
