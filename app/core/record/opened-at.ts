/*
 * When a run was opened, by the clock of the place where it was.
 */

import { dayAt, dayNumber, isoDay } from '../day.ts';
import { DAY, type Millis } from '../units.ts';
import { clockTimeToSecond } from '../words/time/time-of-day.ts';

/**
 * "2026-11-26T19:30:00". The time of day is as it was there; of the days that may belong to it, it is the one nearest to
 * `here`: when it was by the time zone of whoever asks, in ms since 1970 began there.
 */
export function openedAtText(here: Millis, openedAtTimeOfDay: Millis): string {
  const days = Math.round((here - openedAtTimeOfDay) / DAY);
  return `${isoDay(dayAt(YEAR_1970 + days))}T${clockTimeToSecond(openedAtTimeOfDay)}`;
}

const YEAR_1970 = dayNumber({ year: 1970, month: 1, day: 1 });
