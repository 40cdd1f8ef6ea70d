import { expect, test } from 'vitest';
import { settle } from '../../../app/core/run/settle.ts';
import { recordCsv, recordFileName } from '../../../renderer/desk/record-csv.ts';
import { runOf } from '../../support/coach-run.ts';
import { readCsv } from '../../support/csv-reader.ts';

test('every leave that happened and every mark has its row, by time', () => {
  // T0 10 s after the word at 5 s: 0:15 of the run is 19:30:15 by the clock on the wall.
  const state = settle(
    runOf(
      'lane 1 3 swimmers, gap 10\nlane 2\nMain, "hard"\n2 rounds\n  2 x 50 =fast @ 1:00',
      [5_000, { do: 'start' }],
      [20_000, { do: 'mark', lanes: [1, 2], words: 'goggles, again' }],
      [76_000, { do: 'finish' }],
    ),
    Infinity,
  );
  const [header, ...rows] = readCsv(recordCsv(state, (19 * 60 + 30) * 60_000, []));
  expect(header).toHaveLength(14);
  expect(rows.map((row) => row.join('|'))).toEqual([
    'leave|19:30:15|15|1|Main, "hard"|5|1 of 2|1|2|50|m|\'=fast|3|10',
    'leave|19:30:15|15|2|Main, "hard"|5|1 of 2|1|2|50|m|\'=fast|1|5',
    'mark|19:30:20|20|1 2||||||||goggles, again||',
    'leave|19:31:15|75|1|Main, "hard"|5|1 of 2|2|2|50|m|\'=fast|3|10',
    'leave|19:31:15|75|2|Main, "hard"|5|1 of 2|2|2|50|m|\'=fast|1|5',
  ]);
});

test('what fell due while the program was not there is marked as not called, the moment it was seen last left out', () => {
  const state = settle(runOf('lane 1\nMain\n4 x 50 @ 1:00', [5_000, { do: 'start' }]), Infinity);
  const rows = readCsv(recordCsv(state, 0, [{ from: 15_000, to: 135_000 }])).slice(1);
  expect(rows.map(([what, , at]) => `${what} at ${at}`)).toEqual([
    'leave at 15',
    'leave not called at 75',
    'leave not called at 135',
    'leave at 195',
  ]);
});

test('the file is called by title and day, without what file systems refuse', () => {
  const day = new Date(2026, 10, 5);
  expect(recordFileName('Harbour squad, Thursday', day)).toBe('Harbour squad, Thursday 2026-11-05.csv');
  expect(recordFileName('a/b\\c:d*e?"<>|', day)).toBe('a b c d e 2026-11-05.csv');
  expect(recordFileName('...', day)).toBe('Session 2026-11-05.csv');
  expect(recordFileName(null, day)).toBe('Session 2026-11-05.csv');
});
