/*
 * A day as given with --date. Only this file counts days; everything else counts from the start of the session.
 */

import type { Millis } from '../../core/units.ts';

/** Midnight at the beginning of a day, in ms of a calendar without time zones. */
export interface CalendarDay {
  readonly midnight: Millis;
}

/** The day of `YYYY-MM-DD`, years 1000 to 2999; null if there is no such day. */
export function calendarDay(text: string): CalendarDay | null {
  const match = /^([12]\d{3})-(\d\d)-(\d\d)$/.exec(text);
  if (!match) return null;
  const midnight = Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3]));
  return dayText({ midnight }) === text ? { midnight } : null;
}

/** `YYYY-MM-DD`. */
export function dayText(day: CalendarDay): string {
  return new Date(day.midnight).toISOString().slice(0, 10);
}

/** `YYYYMMDDTHHMMSS` of the time `after` ms after midnight, which may be on a later day; part seconds are cut off. */
export function stampText(day: CalendarDay, after: Millis): string {
  return new Date(day.midnight + after).toISOString().slice(0, 19).replace(/[-:]/g, '');
}

/** The weekday and date for people: `Thursday 5 March 2026`. */
export function dayForPeople(day: CalendarDay): string {
  const date = new Date(day.midnight);
  return `${WEEKDAYS[date.getUTCDay()]!} ${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]!} ${date.getUTCFullYear()}`;
}

const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
