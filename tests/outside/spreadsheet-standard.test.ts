/*
 * The timetable for a spreadsheet as RFC 4180 asks for it, by a reading of our own from the
 * standard; and no cell that a spreadsheet would take for a formula (OWASP, "CSV Injection").
 */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { timetableCsv } from '../../app/cli/timetable/format-csv.ts';
import type { Plan } from '../../app/core/plan/plan.ts';
import { plannedTimes } from '../../app/core/plan/schedule.ts';
import { readCsv } from '../support/formats/csv-reader.ts';
import { holdTime, lane, on, part, planOf, rounds, set } from '../support/coach/hand-session.ts';

/** The rows below the header, by the header's names. */
function rows(plan: Plan): readonly ReadonlyMap<string, string>[] {
  const [header, ...body] = readCsv(timetableCsv(plan, plannedTimes(plan)));
  return body.map((cells) => new Map(header!.map((name, index) => [name, cells[index]!])));
}

test('a row a leave, lane by lane, times in seconds and as the clock shows them', () => {
  const lanes = [lane(1), lane(3)];
  const swim = set(4, [2, 1], 62.5, { lanes: 2, words: 'free', timing: on([72.5, 80]), hold: holdTime(60, 2) });
  const found = rows(planOf([part('Main set', 2, rounds(3, 2, swim))], { lanes, startsAt: 1439 }));
  const columns = [
    'lane',
    'round',
    'rep',
    'of',
    'distance',
    'leave on the clock',
    'time of day',
    'leave in s',
    'interval in s',
  ];
  expect(found.map((row) => columns.map((name) => row.get(name)))).toEqual([
    ['1', '1 of 2', '1', '2', '62.5', '0:00', '23:59:00', '0', '72.5'],
    ['1', '1 of 2', '2', '2', '62.5', '1:12.5', '00:00:12', '72.5', '72.5'],
    ['1', '2 of 2', '1', '2', '62.5', '2:25', '00:01:25', '145', '72.5'],
    ['1', '2 of 2', '2', '2', '62.5', '3:37.5', '00:02:37', '217.5', '72.5'],
    ['3', '1 of 2', '1', '1', '62.5', '0:00', '23:59:00', '0', '80'],
    ['3', '2 of 2', '1', '1', '62.5', '1:20', '00:00:20', '80', '80'],
  ]);
  expect(found[0]!.get('target in s')).toBe('60');
});

test('any words come back as written, and none begins like a formula', () => {
  const words = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 30 }),
    fc.constantFrom('=1+1', '+1', '-2 laps', '@home', '=HYPERLINK("x","y")', 'a "b", c', '＝1', ' =1', "'quoted"),
  );
  fc.assert(
    fc.property(words, words, (name, swim) => {
      const [row] = rows(planOf([part(name, 1, set(2, 1, 50, { words: swim, timing: on(60) }))]));
      for (const [cell, written] of [
        [row!.get('part')!, name],
        [row!.get('words')!, swim],
      ] as const) {
        expect(cell).not.toMatch(/^\s*[=+\-@＝＋－＠]/);
        expect([written, `'${written}`]).toContain(cell);
        if (/^[\p{L}\p{N}]/u.test(written)) expect(cell).toBe(written);
      }
    }),
    { seed: 4180, numRuns: 500 },
  );
});
