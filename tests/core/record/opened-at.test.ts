/* When a run was opened, by the clock of the place where it was. */

import { expect, test } from 'vitest';
import { openedAtText } from '../../../app/core/record/opened-at.ts';
import { HOUR, MINUTE } from '../../../app/core/units.ts';

test.each([
  ['in the same zone', '2026-11-26T19:30', 19 * HOUR + 30 * MINUTE, '2026-11-26T19:30:00'],
  ['asked from the west', '2026-11-26T10:30', 19 * HOUR + 30 * MINUTE, '2026-11-26T19:30:00'],
  [
    'asked from the east, where it was the next day',
    '2026-11-27T04:30',
    19 * HOUR + 30 * MINUTE,
    '2026-11-26T19:30:00',
  ],
  ['shortly before midnight', '2026-12-01T00:30', 23 * HOUR + 30 * MINUTE, '2026-11-30T23:30:00'],
  ['shortly after midnight', '2026-12-31T23:10', 10 * MINUTE + 1000, '2027-01-01T00:10:01'],
])('%s: the day nearest to what the clock of whoever asks said', (_, here, timeOfDay, opened) => {
  expect(openedAtText(Date.parse(`${here}Z`), timeOfDay)).toBe(opened);
});
