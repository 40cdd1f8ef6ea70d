/*
 * The timetable beside the text.
 */

import { expect, test } from 'vitest';
import { hourPicture } from '../../../../renderer/desk/hour/hour-bars.ts';
import { timetableOf } from '../../../../renderer/desk/timetable/timetable-rows.ts';
import { writtenFit } from '../../../../renderer/desk/timetable/written-cuts.ts';
import { planOf } from '../../../support/run/deck.ts';
import { HARBOUR, runOf } from '../../../support/coach/coach-run.ts';

test('the timetable has a row a line with each lane’s own interval, estimates marked', () => {
  const table = timetableOf(runOf(HARBOUR).plan);
  expect(table.lanes).toEqual([1, 2]);
  expect(table.parts.map(({ name, starts }) => `${starts} ${name}`)[0]).toBe('19:30 Warm-up');
  const [warmUp, main] = table.parts;
  expect(warmUp?.length).toMatch(/^≈\d+ min( \d+ s)?$/);
  expect(warmUp?.rows[0]?.lanes[0]).toMatch(/≈|^about /);
  expect(main?.rows.map(({ words, depth, lanes }) => [words, depth, lanes])).toEqual([
    ['3 rounds', 0, []],
    ['150 steady', 1, ['2:15', '2:30']],
    ['4 x 50 fast', 1, ['0:50', '0:55']],
    ['talk 1:30 turns', 0, []],
  ]);
  expect(main?.length).not.toMatch(/≈/);
  expect(main?.distances).toEqual(['1050', '1050']);
});

test('the timetable says who swims in each lane, how far apart and by what pace, each figure in a row of its own', () => {
  const { plan } = runOf('lane 1 css 1:20, 5 swimmers, gap 10\nlane 2 base 1:40\nlane 3\nSet\n4 x 50 @ base');
  expect(timetableOf(plan).squad.map(({ words, lanes }) => [words, ...lanes])).toEqual([
    ['Swimmers', '5', '1', '1'],
    ['Gap', '10 s', '–', '–'],
    ['Base, per 100', '≈1:35', '1:40', '≈2:00'],
    ['css, per 100', '1:20', '–', '–'],
  ]);
  const without = runOf('lane 2 base 1:40\nSet\n4 x 50 @ base').plan;
  expect(timetableOf(without).squad.map(({ words }) => words)).toEqual(['Swimmers', 'Base, per 100']);
});

test('[one hour] a wrong hour is said with its line, and neither cuts nor a picture go by it', () => {
  const text = 'Harbour\nstart 7:30 pm\nfinish 8:30 am\nSet\n40 x 100 @ 2:00\nSwim-down\n4 x 50 easy @ 1:30';
  const plan = planOf(text);
  expect(timetableOf(plan).wrongHour).toMatchObject({
    line: 3,
    said: expect.stringMatching(/^19:30 to 08:30 the next/),
  });
  expect(hourPicture(plan).finish).toBeNull();
  expect(writtenFit(plan)).toBeNull();
  const mended = planOf(text.replace('8:30 am', '8:30 pm'));
  expect(timetableOf(mended).wrongHour).toBeNull();
  expect(writtenFit(mended)?.cuts).not.toEqual([]);
});
