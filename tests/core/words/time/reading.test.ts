import { expect, test } from 'vitest';
import {
  inText,
  reading,
  readingLeft,
  readingPast,
  secondsLeft,
  spanText,
  twoDigits,
} from '../../../../app/core/words/time/reading.ts';

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

test('what is past counts the seconds that are over; what is left those that have begun', () => {
  expect([0, 999, 1000, 3_599_999].map(readingPast)).toEqual(['0:00', '0:00', '0:01', '59:59']);
  expect([-1, 0, 1, 1000, 3_599_001].map(readingLeft)).toEqual(['0:00', '0:00', '0:01', '0:01', '1:00:00']);
  expect([-5, 0, 6_001, 7_000].map(secondsLeft)).toEqual([0, 0, 7, 7]);
});

test('how soon something is: in seconds below a minute, else as a reading', () => {
  expect([-1, 21_001, 59_000, 59_001, 65_000].map(inText)).toEqual([
    'in 0 s',
    'in 22 s',
    'in 59 s',
    'in 1:00',
    'in 1:05',
  ]);
});

test('two digits', () => {
  expect([0, 9, 10, 59].map(twoDigits)).toEqual(['00', '09', '10', '59']);
});
