/*
 * Training load: how hard a session was times how long it took, and what the sessions of a week come to.
 * Source: Foster and others 2001, J Strength Cond Res 15(1):109-115; monotony and strain after Foster 1998.
 */

import { dayAt, daysSinceMonday, dayNumber, isoDay, readDay } from '../../day.ts';
import { MINUTE, type Millis } from '../../units.ts';

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
    const read = readDay(day);
    if (!read) throw new Error(`${day} is no day`);
    const place = daysSinceMonday(read);
    const monday = dayNumber(read) - place;
    const days = weeks.get(monday) ?? [0, 0, 0, 0, 0, 0, 0];
    days[place]! += load;
    weeks.set(monday, days);
  }
  return Array.from(weeks)
    .sort(([a], [b]) => a - b)
    .map(([monday, days]) => ({ monday: isoDay(dayAt(monday)), ...weekLoad(days) }));
}
