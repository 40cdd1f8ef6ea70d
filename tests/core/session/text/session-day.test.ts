/* The day that a session is for, as a comment in its text. */

import { expect, test } from 'vitest';
import { MONTHS } from '../../../../app/core/day.ts';
import { dayOf, withDay } from '../../../../app/core/session/text/session-day.ts';

const DAY = { year: 2026, month: 12, day: 3 };

test.each([
  '# for Thursday 3 December 2026',
  '#for 3 dec 2026',
  'Harbour\r\n# FOR Thursday, 3 December 2026\r\nSet',
  'Harbour\n  # for 2026-12-03  \n',
  '\t#\tfor\tThu,\t \t3\t dec\t 2026\t',
  '# for  thursday  03  decem  2026',
  '\t#  for  2026-12-03\r',
  '# for 2026-12-03\n# for 4 December 2026',
  '# for 3 December 2026\n# for 2026-12-04',
  '# for fun\n# for 3 December 2026',
])('%j is for 3 December', (text) => expect(dayOf(text)).toEqual(DAY));

test.each([
  'for 3 December 2026',
  '# for 3 Smarch 2026',
  '# for 31 June 2026',
  '# for 29 February 2027',
  '# for fun',
  '4 x 50 # for 2026-12-03',
  '4 x 50 # for 3 December 2026',
  '# for 3 December 2026 and 4',
  '# for 2026-12-03 and 4',
  '# for 3 December 20266',
  '# for 3 December 202',
  '# for 123 December 2026',
  '# for 3 De 2026',
  '# for 3 Decembers 2026',
  '# for a Thursday 3 December 2026',
  '# for 2026-12-3',
  '# for 2026-1-03',
  '# for 226-12-03',
  '# for 2026-12-033',
  '# for3 December 2026',
  '# for 0 December 2026',
  '# for 2026-00-03',
  '# for 2026-13-03',
  '# for 1900-02-29',
])('%j is for no day', (text) => expect(dayOf(text)).toBeNull());

test('every month has its days, by its whole name and by its first three letters', () => {
  const days = MONTHS.map((month, index) => {
    const [whole, short] = [month, month.slice(0, 3)].map((name) =>
      Array.from({ length: 32 }, (_, day) => dayOf(`# for ${day} ${name} 2026`)).filter((day) => day !== null),
    );
    expect(short).toEqual(whole);
    expect(whole!.every(({ month: number }) => number === index + 1)).toBe(true);
    return whole!.length;
  });
  expect(days).toEqual([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]);
});

test.each([2000, 2024, 2028])('29 February is a day in leap years: %i', (year) => {
  expect(dayOf(`# for ${year}-02-29`)).toEqual({ year, month: 2, day: 29 });
});

test('a text is made for another day in its own line, or in a new one below the title', () => {
  expect(withDay('Harbour\n# for 2026-11-26\nSet\n', DAY)).toBe('Harbour\n# for Thursday 3 December 2026\nSet\n');
  expect(withDay('Harbour\nSet\n', DAY)).toBe('Harbour\n# for Thursday 3 December 2026\nSet\n');
  expect(withDay('A\r\n  # for 2026-11-26\r\nSet\r\n', DAY)).toBe('A\r\n# for Thursday 3 December 2026\r\nSet\r\n');
  expect(withDay('\nSet\n', DAY)).toBe('\n# for Thursday 3 December 2026\nSet\n');
  expect(withDay('Harbour', DAY)).toBe('Harbour\n# for Thursday 3 December 2026\n');
});
