/*
 * A session taken for another day: which day that is at first, and what the copy is called.
 */

import { dayAt, dayNumber, daysSinceMonday, MONTHS, weekdayOf, WEEKDAYS, type Day } from '../../../../app/core/day.ts';
import { weekdayIn, withWeekday } from '../../../../app/core/session/text/moved-session.ts';

const WEEK = 7;

/**
 * The next day to come that is the same weekday as the one it is for; for one that is for none, the weekday in its title, or
 * else today's.
 */
export function nextDay(of: Day | null, today: Day, title = ''): Day {
  const named = of ? null : weekdayIn(title);
  const from = dayNumber(of ?? today) + (named === null ? 0 : ((named - daysSinceMonday(today) + WEEK) % WEEK) - WEEK);
  const weeks = Math.max(1, Math.floor((dayNumber(today) - from) / WEEK) + 1);
  return dayAt(from + weeks * WEEK);
}

/** "Harbour squad, Thursday 3 December". `from`: the day that its text is for; `dated`: the one that the name may end with. */
export function movedName(name: string, from: Day | null, to: Day, dated = from): string {
  const bare = name.replace(/ \(\d+\)$/, '').replace(dated ? new RegExp(` ${dateOf(dated)}$`) : /$^/, '');
  const moved = withWeekday(bare, from, to);
  const endsSo = WEEKDAYS.some((weekday) => moved.endsWith(weekday));
  return `${moved}${endsSo ? '' : `, ${weekdayOf(to)}`} ${dateOf(to)}`;
}

export function today(): Day {
  const date = new Date();
  return { year: date.getFullYear(), month: date.getMonth() + 1, day: date.getDate() };
}

/** "3 December". */
export function dateOf({ month, day }: Day): string {
  return `${day} ${MONTHS[month - 1]}`;
}
