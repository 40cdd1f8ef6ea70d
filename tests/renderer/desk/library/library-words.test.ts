/*
 * What the library says and makes by itself: names and days of copies, what a list says of a session, which lines are kept.
 */

import { expect, test } from 'vitest';
import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import { entryFacts } from '../../../../renderer/desk/library/rows/entry-facts.ts';
import { keptLines } from '../../../../renderer/desk/library/kept-lines.ts';
import { movedName, nextDay } from '../../../../renderer/desk/library/naming/moved-name.ts';
import { SAMPLES } from '../../../../renderer/desk/library/first-steps/samples.ts';
import { hasAllOf } from '../../../../renderer/desk/write/file/session-saver.ts';
import { newNameOf, titleOf } from '../../../../renderer/desk/write/file/session-title.ts';

const day = (year: number, month: number, of: number) => ({ year, month, day: of });
const FRIDAY = day(2026, 11, 27);

test.each([
  ['of a session for last week', day(2026, 11, 19), day(2026, 12, 3)],
  ['of one for yesterday', day(2026, 11, 26), day(2026, 12, 3)],
  ['of one for today', FRIDAY, day(2026, 12, 4)],
  ['of one that is still to come', day(2026, 12, 3), day(2026, 12, 10)],
  ['of one for no day', null, day(2026, 12, 4)],
])('the next day %s', (_, of, next) => {
  expect(nextDay(of, FRIDAY)).toEqual(next);
});

test.each([
  ['Harbour squad, Thursday', day(2026, 12, 3)],
  ['friday swim', day(2026, 12, 4)],
  ['Saturday', day(2026, 11, 28)],
  ['From Monday to Friday', day(2026, 12, 4)],
  ['Threshold', day(2026, 12, 4)],
])('the next day of one for no day that is called %s', (title, next) => {
  expect(nextDay(null, FRIDAY, title)).toEqual(next);
});

test('the next day lies beyond the year’s end', () => {
  expect(nextDay(null, day(2026, 12, 29), 'Monday masters')).toEqual(day(2027, 1, 4));
});

test.each([
  ['Harbour squad, Thursday', null, 'Harbour squad, Thursday 3 December'],
  ['Harbour squad, Thursday 26 November', day(2026, 11, 26), 'Harbour squad, Thursday 3 December'],
  ['Threshold 3 x 10', null, 'Threshold 3 x 10, Thursday 3 December'],
  ['Threshold (2)', null, 'Threshold, Thursday 3 December'],
  ['Tuesday masters', day(2026, 12, 1), 'Thursday masters, Thursday 3 December'],
])('%s taken for another day is called by it', (name, from, moved) => {
  expect(movedName(name, from, day(2026, 12, 3))).toBe(moved);
});

test('the list says a session’s day, how far it is and how long it takes; or when it was used, and what is wrong', () => {
  const usedAt = new Date(2026, 10, 24, 18).getTime();
  const entry = { name: 'x', title: null, usedAt, note: null };
  const figures = { least: 24_000, most: 29_000, unit: 'm' as const, duration: 3_540_000, isEstimate: true };
  expect(entryFacts({ ...entry, day: '2026-12-03', figures })).toBe('Thu 3 December · 2400–2900\u00a0m · ≈59\u00a0min');
  const same = { ...figures, least: 29_000, isEstimate: false };
  expect(entryFacts({ ...entry, day: '2026-12-03', figures: same })).toBe('Thu 3 December · 2900\u00a0m · 59\u00a0min');
  expect(entryFacts({ ...entry, day: null, figures: null, note: '2 faults' })).toBe('used 24 November · 2 faults');
});

const TEXT = 'Harbour\nlane 1 base 1:30\n\nWarm-up\n200 easy\n\nMain set\n3 rounds\n  50 fast @ 1:00\n\n';

test.each([
  ['in a part it is kept whole, with its heading', 9, 'Main set\n3 rounds\n  50 fast @ 1:00\n'],
  ['on a heading too', 4, 'Warm-up\n200 easy\n'],
  ['above the first part there is nothing to keep', 2, null],
])('where the cursor stands %s', (_, line, kept) => {
  expect(keptLines(TEXT, { from: line, to: line, isCursor: true })).toBe(kept);
});

test('chosen lines are kept, with their indent, and none of blank ones', () => {
  expect(keptLines(TEXT, { from: 8, to: 9, isCursor: false })).toBe('3 rounds\n  50 fast @ 1:00\n');
  expect(keptLines(TEXT, { from: 9, to: 10, isCursor: false })).toBe('  50 fast @ 1:00\n');
  expect(keptLines(TEXT, { from: 3, to: 3, isCursor: false })).toBeNull();
});

test.each(SAMPLES.map(({ name, text }) => [name, text] as const))('the sample %s has no fault', (name, text) => {
  const plan = openPlan({ text, lanesText: null });
  expect(plan.ok && plan.value.session.title).toBe(name);
});

test('a session is named by its title, also where it has faults, but not by a first line alone', () => {
  expect(titleOf('Harb')).toBeNull();
  expect(titleOf('Harbour\n4 x 50 @ 1.00')).toBe('Harbour');
  expect(titleOf('4 x 50 @ 1.00\n200 easy')).toBeNull();
  expect(titleOf(TEXT)).toBe('Harbour');
});

test('a file that comes from outside is called as it was', () => {
  expect(newNameOf({ from: 'my tuesday.TXT' })).toBe('my tuesday');
  expect(newNameOf({ from: 'Harbour, opened 19:30' })).toBeNull();
  expect(newNameOf({ from: null })).toBeNull();
});

test('a text goes on from another where it has all its letters in their order', () => {
  expect(hasAllOf('one and two', 'one two')).toBe(true);
  expect(hasAllOf('one and two', 'two one')).toBe(false);
  expect(hasAllOf('', 'a')).toBe(false);
  expect(hasAllOf('a', '')).toBe(true);
});
