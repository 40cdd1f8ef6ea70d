/*
 * Days of the calendar (Gregorian): how they are written, their weekdays, and how many lie between two. What day it is,
 * and in which time zone, is for others to know.
 */

export interface Day {
  readonly year: number;
  /** From 1. */
  readonly month: number;
  readonly day: number;
}

export const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;

export const MONTHS = [
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
] as const;

/** The day of `YYYY-MM-DD`, years 1000 to 2999; null where there is no such day. */
export function readDay(text: string): Day | null {
  const match = /^([12]\d{3})-(\d\d)-(\d\d)$/.exec(text);
  if (!match) return null;
  const day = { year: Number(match[1]), month: Number(match[2]), day: Number(match[3]) };
  return isDay(day) ? day : null;
}

export function isDay(day: Day): boolean {
  return isoDay(dayAt(dayNumber(day))) === isoDay(day);
}

/** `YYYY-MM-DD`. */
export function isoDay({ year, month, day }: Day): string {
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}`;
}

/** "Thursday 3 December 2026". */
export function dayText(day: Day): string {
  return `${weekdayOf(day)} ${day.day} ${MONTHS[day.month - 1]} ${day.year}`;
}

export function weekdayOf(day: Day): (typeof WEEKDAYS)[number] {
  return WEEKDAYS[daysSinceMonday(day)]!;
}

/** 0 for a Monday. */
export function daysSinceMonday(day: Day): number {
  return (dayNumber(day) + FIRST) % 7;
}

/** Day 0, 1 March of the year 0, was a Wednesday. */
const FIRST = 2;

/** Days since 1 March of the year 0; years begin in March, so that 29 February is the last of one. */
export function dayNumber({ year, month, day }: Day): number {
  const y = month < 3 ? year - 1 : year;
  return daysBefore(y) + Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
}

/** The day of a number. */
export function dayAt(number: number): Day {
  // By the mean year it is never too late, and too early by one at most.
  let y = Math.floor(number / 365.2425);
  if (daysBefore(y + 1) <= number) y++;
  const rest = number - daysBefore(y);
  const m = Math.floor((5 * rest + 2) / 153);
  const month = m < 10 ? m + 3 : m - 9;
  return { year: month < 3 ? y + 1 : y, month, day: rest - Math.floor((153 * m + 2) / 5) + 1 };
}

/** Days before 1 March of a year. */
function daysBefore(year: number): number {
  return year * 365 + Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400);
}

function digits(value: number, length: number): string {
  return `${value}`.padStart(length, '0');
}
