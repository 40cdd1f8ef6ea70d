import { expect, test } from 'vitest';
import {
  clockTime,
  clockTimeToSecond,
  endTime,
  endTimeAfter,
  timeOfDay,
  timeOfDayAfter,
} from '../../../../app/core/words/time/time-of-day.ts';

const at = (hours: number, minutes: number, seconds = 0): number => ((hours * 60 + minutes) * 60 + seconds) * 1000;

test('times of a session are 24 h', () => {
  expect([0, 9 * 60 + 5, 1439].map(timeOfDay)).toEqual(['00:00', '09:05', '23:59']);
});

test('a clock shows the minute and the second that have begun, the day before and after too', () => {
  expect([at(19, 58, 59) + 999, at(24, 0), at(49, 1), -1].map(clockTime)).toEqual(['19:58', '00:00', '01:01', '23:59']);
  expect([at(19, 30) + 9_999, at(24, 1, 20), -5_000, -1].map(clockTimeToSecond)).toEqual([
    '19:30:09',
    '00:01:20',
    '23:59:55',
    '23:59:59',
  ]);
});

test('an end is in the minute by which it is over', () => {
  expect([at(20, 10), at(20, 10) + 1, at(23, 59) + 1].map(endTime)).toEqual(['20:10', '20:11', '00:00']);
});

test('planned times have seconds off the full minute only, and go on past midnight', () => {
  const after = (seconds: number) => timeOfDayAfter(19 * 60 + 30, seconds * 1000);
  expect([60, 61, 63, 60.9].map(after)).toEqual(['19:31', '19:31:01', '19:31:03', '19:31']);
  expect(timeOfDayAfter(23 * 60 + 59, 60_000)).toBe('00:00');
  expect(endTimeAfter(19 * 60 + 30, 60_100)).toBe('19:31:01');
  expect(endTimeAfter(19 * 60 + 30, 60_000)).toBe('19:31');
});
