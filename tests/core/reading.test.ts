import { expect, test } from 'vitest';
import { reading, spanText, timeOfDay, timeOfDayAfter } from '../../app/core/reading.ts';

test.each([
  [0, '0:00'],
  [5_000, '0:05'],
  [72_500, '1:12.5'],
  [599_000, '9:59'],
  [3_599_900, '59:59.9'],
  [3_600_000, '1:00:00'],
  [3_661_000, '1:01:01'],
  [59_999, '0:59.9'],
  [-5_000, '-0:05'],
])('%i ms reads %s', (time, text) => {
  expect(reading(time)).toBe(text);
});

test('spans below a minute are in seconds', () => {
  expect([0, 4_999, 45_000, 59_950, 60_000].map(spanText)).toEqual(['0 s', '4.9 s', '45 s', '59.9 s', '1:00']);
});

test('times of day are 24 h, with seconds only off the full minute, and go on past midnight', () => {
  expect([0, 9 * 60 + 5, 1439].map(timeOfDay)).toEqual(['00:00', '09:05', '23:59']);
  expect(timeOfDayAfter(19 * 60 + 30, 60_000)).toBe('19:31');
  expect(timeOfDayAfter(19 * 60 + 30, 61_000)).toBe('19:31:01');
  expect(timeOfDayAfter(23 * 60 + 59, 60_000)).toBe('00:00');
});
