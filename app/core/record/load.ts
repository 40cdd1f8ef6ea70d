/*
 * Training load: how hard a session was times how long it took, and what the sessions of a week come to.
 * Source: Foster and others 2001, J Strength Cond Res 15(1):109-115; monotony and strain after Foster 1998.
 */

import { MINUTE, type Millis } from '../units.ts';

/** effort: 0 to 10, as the coach or the squad felt it. Whole, in arbitrary units. */
export function sessionLoad(effort: number, duration: Millis): number {
  return Math.round((effort * duration) / MINUTE);
}

export interface WeekLoad {
  readonly total: number;
  /**
   * The mean of the seven days over their standard deviation (of a sample: n - 1); null where all days were the same,
   * because it would have no bounds.
   */
  readonly monotony: number | null;
  /** Total times monotony. */
  readonly strain: number | null;
}

/** days: the load of each day of a week, 0 for a day of rest. */
export function weekLoad(days: readonly number[]): WeekLoad {
  const total = days.reduce((sum, day) => sum + day, 0);
  const mean = total / days.length;
  const deviation = Math.sqrt(days.reduce((sum, day) => sum + (day - mean) ** 2, 0) / (days.length - 1));
  const monotony = deviation > 0 ? mean / deviation : null;
  return { total, monotony, strain: monotony === null ? null : total * monotony };
}

export interface DayLoad {
  /** "2026-11-26". */
  readonly day: string;
  readonly load: number;
}

export interface LoadOfWeek extends WeekLoad {
  /** The Monday on which it begins. */
  readonly monday: string;
}

/** Every week in which there was a session, the earliest first; several sessions of a day are summed. */
export function loadByWeek(sessions: readonly DayLoad[]): readonly LoadOfWeek[] {
  const weeks = new Map<number, number[]>();
  for (const { day, load } of sessions) {
    const number = dayNumber(day);
    const place = (((number + MONDAY) % 7) + 7) % 7;
    const days = weeks.get(number - place) ?? [0, 0, 0, 0, 0, 0, 0];
    days[place]! += load;
    weeks.set(number - place, days);
  }
  return Array.from(weeks)
    .sort(([a], [b]) => a - b)
    .map(([monday, days]) => ({ monday: dayOf(monday), ...weekLoad(days) }));
}

/** Day 0, 1 March of the year 0, was a Wednesday. */
const MONDAY = 2;

/** Days since 1 March of the year 0, by the Gregorian calendar; years begin in March, so that 29 February is the last. */
function dayNumber(day: string): number {
  const [year, month, date] = day.split('-').map(Number);
  const y = month! < 3 ? year! - 1 : year!;
  const m = (month! + 9) % 12;
  return daysBefore(y) + Math.floor((153 * m + 2) / 5) + date! - 1;
}

/** Days before 1 March of a year. */
function daysBefore(year: number): number {
  return year * 365 + Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400);
}

function dayOf(number: number): string {
  let year = Math.floor(number / 365.2425);
  while (daysBefore(year + 1) <= number) year++;
  while (daysBefore(year) > number) year--;
  const rest = number - daysBefore(year);
  const m = Math.floor((5 * rest + 2) / 153);
  const date = rest - Math.floor((153 * m + 2) / 5) + 1;
  const month = m < 10 ? m + 3 : m - 9;
  const text = (value: number, digits: number): string => `${value}`.padStart(digits, '0');
  return `${text(month < 3 ? year + 1 : year, 4)}-${text(month, 2)}-${text(date, 2)}`;
}
