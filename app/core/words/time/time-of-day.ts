/*
 * Times of day, 24 h: "19:58". What a session says is in minutes after midnight; what a run comes to is in ms after the
 * midnight before it was opened, and may lie on the day before or after.
 */

import { DAY, MINUTE, SECOND, type Millis, type MinuteOfDay } from '../../units.ts';
import { twoDigits } from './reading.ts';

/** "19:30", as a session has it. */
export function timeOfDay(minute: MinuteOfDay): string {
  return `${twoDigits(Math.floor(minute / 60))}:${twoDigits(minute % 60)}`;
}

/** What a clock without seconds shows: "19:58". */
export function clockTime(ofDay: Millis): string {
  return timeOfDay(Math.floor(withinDay(ofDay) / MINUTE));
}

/** What a clock with seconds shows: "19:58:05". */
export function clockTimeToSecond(ofDay: Millis): string {
  return `${clockTime(ofDay)}:${twoDigits(Math.floor((withinDay(ofDay) % MINUTE) / SECOND))}`;
}

/** When something will be over, in whole minutes: one begun counts whole, so that it is never later than said. */
export function endTime(ofDay: Millis): string {
  return clockTime(Math.ceil(ofDay / MINUTE) * MINUTE);
}

/** As planned, so long after another time: "19:31", or "19:31:05" off the full minute. */
export function timeOfDayAfter(start: MinuteOfDay, after: Millis): string {
  const time = start * MINUTE + after;
  return Math.floor(time / SECOND) % 60 === 0 ? clockTime(time) : clockTimeToSecond(time);
}

/** The same of an end: a second that has begun counts whole. */
export function endTimeAfter(start: MinuteOfDay, after: Millis): string {
  return timeOfDayAfter(start, Math.ceil(after / SECOND) * SECOND);
}

function withinDay(ofDay: Millis): Millis {
  return ((ofDay % DAY) + DAY) % DAY;
}
