/* A session taken for another day and hour. */

import { expect, test } from 'vitest';
import { parseSession } from '../../../../app/core/session/parse.ts';
import { movedSession, startOf } from '../../../../app/core/session/text/moved-session.ts';

const TEXT = `Harbour squad, Thursday   # ours
# for Thursday 26 November 2026
pool 25 m
start 19:30   # sharp
finish 20:30
start on 5

Main set
8 x 100 free @ 1:30   # a start
`;
const TUESDAY = { year: 2026, month: 12, day: 1 };
const THURSDAY = { year: 2026, month: 12, day: 3 };

test('for the next Thursday only the line for the day changes', () => {
  expect(movedSession(TEXT, THURSDAY, null)).toBe(TEXT.replace('26 November', '3 December'));
});

test('for another weekday and hour the title, the start and the finish follow, and comments stay', () => {
  expect(movedSession(TEXT, TUESDAY, 6 * 60 + 15)).toBe(
    TEXT.replace('squad, Thursday', 'squad, Tuesday')
      .replace('Thursday 26 November', 'Tuesday 1 December')
      .replace('start 19:30', 'start 06:15')
      .replace('finish 20:30', 'finish 07:15'),
  );
});

test.each([
  ['start 7:30-8:30 pm', 'start 23:30-00:30'],
  ['start 7 pm', 'start 23:30'],
  ['start: 19:30 to 20:45', 'start: 23:30-00:45'],
])('%s moved to half past eleven is %s', (line, moved) => {
  const text = `Harbour\n${line}\nSet\n4 x 50 @ 1:00\n`;
  const result = movedSession(text, TUESDAY, 23 * 60 + 30);
  expect(result).toContain(`\n${moved}\n`);
  expect(parseSession(result, null).ok).toBe(true);
  expect(startOf(result)).toBe(23 * 60 + 30);
});

test('a title keeps a weekday that was not the day’s own, and one of several', () => {
  const title = (words: string): string =>
    movedSession(TEXT.replace('Harbour squad, Thursday', words), TUESDAY, null).split('   #')[0]!;
  expect(title('Black Friday')).toBe('Black Friday');
  expect(title('Tuesday or Thursday')).toBe('Tuesday or Thursday');
  expect(title('Thursday or Tuesday')).toBe('Thursday or Tuesday');
  expect(title('Harbour squad')).toBe('Harbour squad');
});

test('a weekday in small letters is one too, and one of a text that says no day is changed', () => {
  expect(movedSession(TEXT.replace('Thursday   #', 'thursday   #'), TUESDAY, null)).toMatch(/^Harbour squad, Tuesday /);
  expect(movedSession('Friday sprints\n50\n', TUESDAY, null)).toMatch(/^Tuesday sprints\n/);
});

test('where the first line is a setting no name in it is taken for a weekday', () => {
  const text = 'lane 1 Friday, Ana\n50\n';
  expect(movedSession(text, TUESDAY, null)).toBe(text.replace('\n', '\n# for Tuesday 1 December 2026\n'));
});

test('a text without a start gets none, and one that is no session is only given its day', () => {
  expect(movedSession('Set\n4 x\n', TUESDAY, 600)).toBe('Set\n# for Tuesday 1 December 2026\n4 x\n');
  expect(movedSession('', TUESDAY, 600)).toBe('\n# for Tuesday 1 December 2026\n');
  expect(movedSession('Set\nfinish 20:30\n', TUESDAY, 600)).toContain('\nfinish 20:30\n');
  expect(startOf('Set')).toBeNull();
});
