/* Days of the calendar, against the machine's own. */

import { expect, test } from 'vitest';
import { dayAt, dayNumber, dayText, daysSinceMonday, isoDay, MONTHS, readDay, weekdayOf } from '../../app/core/day.ts';

const NUMBERS = Array.from({ length: 399 }, (_, index) => index * 1831);

test('every day has its number, and every number its day, in years that have a 29 February and in others', () => {
  const first = dayNumber({ year: 1000, month: 1, day: 1 });
  for (const days of NUMBERS) {
    const date = new Date(Date.UTC(1000, 0, 1 + days));
    const day = { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
    expect(dayNumber(day) - first).toBe(days);
    expect(dayAt(first + days)).toEqual(day);
    expect(isoDay(day)).toBe(date.toISOString().slice(0, 10));
    expect(readDay(isoDay(day))).toEqual(day);
    expect(weekdayOf(day)).toBe(date.toLocaleDateString('en', { weekday: 'long', timeZone: 'UTC' }));
    expect(daysSinceMonday(day)).toBe((date.getUTCDay() + 6) % 7);
  }
});

test.each([
  '2026-02-29',
  '1900-02-29',
  '2026-04-31',
  '2026-00-10',
  '2026-13-10',
  '2026-05-00',
  '0999-05-05',
  '3000-01-01',
])('%s is no day', (text) => expect(readDay(text)).toBeNull());

test('a day for people has its weekday and no leading zeros', () => {
  expect(dayText({ year: 2026, month: 12, day: 3 })).toBe('Thursday 3 December 2026');
});

test('months have the names of the calendar', () => {
  const names = Array.from({ length: 12 }, (_, index) =>
    new Date(Date.UTC(2026, index, 1)).toLocaleDateString('en', { month: 'long', timeZone: 'UTC' }),
  );
  expect(MONTHS).toEqual(names);
});

test.each(['2026-05-5', '2026-5-05', '02026-05-05', '2026-05-055', '2026-05-05 ', 'on 2026-05-05', '2026/05/05'])(
  '%s is no day as it is written',
  (text) => expect(readDay(text)).toBeNull(),
);

test('a year with fewer than four digits has them all', () => {
  expect(isoDay({ year: 33, month: 4, day: 3 })).toBe('0033-04-03');
});
