// The booked finish as a time of the run.

import { expect, test } from 'vitest';
import { finishAfter } from '../../../../app/core/run/hour/booked-finish.ts';
import { HOUR, MINUTE } from '../../../../app/core/units.ts';

/** Minutes from the opening to the finish, from "19:30" and "20:30". */
function minutes(opened: string, finish: string): number {
  const at = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
  return finishAfter(at(opened) * MINUTE, at(finish)) / MINUTE;
}

test.each([
  ['is so long after the opening', '19:30', '20:30', 60],
  ['at the opening itself is now', '20:30', '20:30', 0],
  ['past midnight is the next day’s', '23:30', '00:15', 45],
  ['a little before the opening was missed', '20:40', '20:30', -10],
  ['before midnight was missed by a run opened after it', '00:05', '23:50', -15],
  ['was missed up to four hours later', '00:29', '20:30', -239],
  ['is the next day’s from four hours later on', '00:30', '20:30', 1200],
])('the finish %s: opened %s, booked %s', (_what, opened, finish, expected) => {
  expect(minutes(opened, finish)).toBe(expected);
});

test('counts to the millisecond', () => {
  expect(finishAfter(19 * HOUR + 1, 19 * 60 + 1)).toBe(MINUTE - 1);
});
