/* When a run was opened, by the clock of its own place, wherever its journal is read. */

import { afterEach, expect, test, vi } from 'vitest';
import { openedAtOf } from '../../../app/host/records/opened-at.ts';
import { HOUR } from '../../../app/core/units.ts';
import type { OpenedEntry } from '../../../app/host/journal/journal-line.ts';

/** Read on a machine that many hours east of Greenwich. */
function readAt(hoursEast: number, wall: number, openedAtTimeOfDay: number, at = 0): string {
  vi.spyOn(Date.prototype, 'getTimezoneOffset').mockReturnValue(-hoursEast * 60);
  return openedAtOf({ wall, at, openedAtTimeOfDay } as OpenedEntry);
}

afterEach(() => vi.restoreAllMocks());

const EVENING = Date.UTC(2026, 10, 26, 19, 30);

test.each([
  [0, 19.5, '2026-11-26T19:30:00'],
  [1, 20.5, '2026-11-26T20:30:00'],
  [13, 8.5, '2026-11-27T08:30:00'],
  [-11, 8.5, '2026-11-26T08:30:00'],
])('[record] read where it was swum, %i h east: the day and time of day of that place', (east, hours, expected) => {
  expect(readAt(east, EVENING, hours * HOUR)).toBe(expected);
});

test.each([
  [11, 19.5, '2026-11-26T19:30:00'],
  [-11, 19.5, '2026-11-26T19:30:00'],
  [0, 7.25, '2026-11-27T07:15:00'],
])('[record] read %i h east of Greenwich: the nearest day with the journal’s time of day', (east, hours, expected) => {
  expect(readAt(east, EVENING, hours * HOUR)).toBe(expected);
});

test('[record] exactly half a day apart, it is the later of the two days', () => {
  expect(readAt(0, EVENING, 7.5 * HOUR)).toBe('2026-11-27T07:30:00');
});

test('[record] a run opened anew when its clock was matched keeps the time of its first opening', () => {
  expect(readAt(0, EVENING + 8 * HOUR, 19.5 * HOUR, 8 * HOUR)).toBe('2026-11-26T19:30:00');
});
