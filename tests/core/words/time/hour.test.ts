/*
 * The booked hour against the projection.
 */

import { expect, test } from 'vitest';
import { endMoves, hourOf, movedText } from '../../../../app/core/words/time/hour.ts';

const time = (hours: number, minutes: number): number => (hours * 60 + minutes) * 60_000;
const FINISH = 20 * 60 + 30;
const inHand = (end: number, openedAt = time(19, 30)) => hourOf(openedAt, end, FINISH, false).inHandText;

test('what is in hand is the finish less the projected end, in whole minutes', () => {
  const hour = hourOf(time(19, 30), time(0, 57), FINISH, false);
  expect(hour).toEqual({ ends: '20:27', booked: '20:30', inHand: time(0, 3), inHandText: '3 min in hand' });
});

test('the end and what is in hand are marked where they are estimates', () => {
  const hour = hourOf(time(19, 30), time(0, 57), FINISH, true);
  expect(hour).toMatchObject({ ends: '≈20:27', booked: '20:30', inHandText: '≈3 min in hand' });
});

test('past the finish it is over; below a minute in seconds, past an hour in hours', () => {
  expect(inHand(time(1, 2))).toBe('2 min over');
  expect(inHand(time(1, 0) - 45_000)).toBe('45 s in hand');
  expect(inHand(time(0, 59))).toBe('1 min in hand');
  expect(inHand(time(1, 0))).toBe('0 s in hand');
  expect(inHand(time(1, 0) + 1)).toBe('1 s over');
  expect(inHand(time(1, 0), time(18, 0))).toBe('1 h 30 min in hand');
  expect(inHand(time(0, 30), time(18, 0))).toBe('2 h in hand');
});

test('the end and what is over are rounded up, what is in hand down: no more is promised than there is', () => {
  const soon = hourOf(time(19, 30), time(0, 39) + 12_000, FINISH, false);
  expect(soon).toMatchObject({ ends: '20:10', inHandText: '20 min in hand' });
  const late = hourOf(time(19, 30), time(1, 1) + 1, FINISH, false);
  expect(late).toMatchObject({ ends: '20:32', inHandText: '2 min over' });
});

test('a finish past midnight is the next day’s; a run opened after the finish is over', () => {
  expect(hourOf(time(23, 30), time(0, 40), 15, false)).toMatchObject({ ends: '00:10', inHandText: '5 min in hand' });
  expect(inHand(time(0, 5), time(20, 40))).toBe('15 min over');
});

test('without a finish there is nothing in hand', () => {
  const hour = hourOf(time(19, 30), time(0, 57), null, false);
  expect(hour).toEqual({ ends: '20:27', booked: null, inHand: null, inHandText: null });
});

test('how far the end moves, in whole seconds; less than one is nothing', () => {
  expect([-335_400, 10_000, 999, -999, 0].map((by) => endMoves(by))).toEqual([
    'ends 5:35 sooner',
    'ends 0:10 later',
    'the end stays',
    'the end stays',
    'the end stays',
  ]);
  expect(endMoves(-60_000, true)).toBe('ends ≈1:00 sooner');
  expect([3_661_000, 0].map((by) => movedText(by))).toEqual(['1:01:01 later', '0:00 later']);
});
