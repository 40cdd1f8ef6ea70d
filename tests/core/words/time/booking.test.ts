/*
 * An hour that nobody meant, in start or finish.
 */

import { expect, test } from 'vitest';
import { wrongHourText } from '../../../../app/core/words/time/booking.ts';
import { hourOf } from '../../../../app/core/words/time/hour.ts';
import { HOUR, MINUTE } from '../../../../app/core/units.ts';

const at = (hours: number, minutes = 0): number => hours * 60 + minutes;
const said = (startsAt: number | null, finishBy: number | null): string | null => wrongHourText({ startsAt, finishBy });

test('[one hour] am for pm, or a wrong digit, is said with what to check', () => {
  expect(said(at(19, 30), at(8, 30))).toBe(
    '19:30 to 08:30 the next day is 13 h: is an hour wrong? Check start and finish, each digit, and am or pm.',
  );
  expect(said(at(19, 30), at(18, 30))).toMatch(/^19:30 to 18:30 the next day is 23 h: /);
  expect(said(at(10), at(20, 30))).toMatch(/^10:00 to 20:30 is 10 h 30 min: /);
});

test('[one hour] four hours may be booked, also over midnight; without both nothing is said', () => {
  expect([said(at(18), at(22)), said(at(22), at(1)), said(null, at(9)), said(at(9), null)]).toEqual(
    Array(4).fill(null),
  );
  expect(said(at(18), at(22, 1))).not.toBeNull();
});

test('[one hour] in a run no hours are in hand that a wrong hour made', () => {
  const inHand = (finish: number): string | null => hourOf(19.5 * HOUR, 57 * MINUTE, finish, true).inHandText;
  expect(inHand(at(8, 30))).toBe('finish 12 h away: check it');
  expect(inHand(at(20, 30))).toBe('≈3 min in hand');
});
