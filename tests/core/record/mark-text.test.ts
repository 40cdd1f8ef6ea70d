import { expect, test } from 'vitest';
import { markText } from '../../../app/core/record/mark-text.ts';

test.each([
  ['', '', ''],
  ['cramp', '', 'cramp'],
  ['', 'left calf', 'left calf'],
  ['cramp', 'left calf', 'cramp, left calf'],
  ['cramp', ' left calf ', 'cramp, left calf'],
  ['cramp', ' ', 'cramp'],
  ['cramp in the calf', 'left the water', 'cramp in the calf, left the water'],
])('[mark] "%s" with "%s" added says %j', (own, more, said) => {
  expect(markText(own, more)).toBe(said);
});

test.each([
  ['cramp', 'cramp', 'cramp'],
  ['cramp', ' Cramp, left calf', 'Cramp, left calf'],
  ['Cramp', 'cramp: left calf', 'cramp: left calf'],
])('[mark] "%s" with "%s" added says its own words once: %j', (own, more, said) => {
  expect(markText(own, more)).toBe(said);
});

test('[mark] only whole words are the same: those of "no" stand before "nobody hurt" and "no2"', () => {
  expect([markText('no', 'nobody hurt'), markText('no', 'no2')]).toEqual(['no, nobody hurt', 'no, no2']);
});
