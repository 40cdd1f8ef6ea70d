/* The day that a session is for, as a comment in its text. */

import { expect, test } from 'vitest';
import { dayOf, withDay } from '../../../../app/core/session/text/session-day.ts';

const DAY = { year: 2026, month: 12, day: 3 };

test.each([
  '# for Thursday 3 December 2026',
  '#for 3 dec 2026',
  'Harbour\r\n# FOR Thursday, 3 December 2026\r\nSet',
  'Harbour\n  # for 2026-12-03  \n',
])('%j is for 3 December', (text) => expect(dayOf(text)).toEqual(DAY));

test.each([
  'for 3 December 2026',
  '# for 3 Smarch 2026',
  '# for 31 June 2026',
  '# for 29 February 2027',
  '# for fun',
  '4 x 50 # for 2026-12-03',
])('%j is for no day', (text) => expect(dayOf(text)).toBeNull());

test('29 February is a day in leap years', () => expect(dayOf('# for 2028-02-29')).toMatchObject({ day: 29 }));

test('a text is made for another day in its own line, or in a new one below the title', () => {
  expect(withDay('Harbour\n# for 2026-11-26\nSet\n', DAY)).toBe('Harbour\n# for Thursday 3 December 2026\nSet\n');
  expect(withDay('Harbour\nSet\n', DAY)).toBe('Harbour\n# for Thursday 3 December 2026\nSet\n');
  expect(withDay('Harbour', DAY)).toBe('Harbour\n# for Thursday 3 December 2026\n');
});
