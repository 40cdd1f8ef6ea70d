/*
 * What the history draws of a run, and the words it is found by.
 */

import { expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../../app/core/record/afterwards.ts';
import { historyCsv } from '../../../../app/core/record/tables/history-csv.ts';
import { historyRun, searchedWords } from '../../../../app/core/record/history/history-run.ts';
import { recordOf } from '../../../../app/core/record/record.ts';
import { readCsv } from '../../../support/formats/csv-reader.ts';
import { keptRun } from '../../../support/run/kept-run.ts';

const TEXT = `Squad
lane 1 Ana, Bram
lane 2

Warm-up
2 x 62.5 easy @ 1:00

Main set
400 @ 8:00
200 @ 5:00
`;

/** Leaves at 10 and 70 s, and from the second start on at 310 and 790 s. Lane 2 is out for the last. */
const kept = () =>
  keptRun(TEXT, [
    [0, { do: 'start' }],
    [20, { do: 'mark', lanes: [2], words: 'cramp' }],
    [21, { do: 'mark' }],
    [300, { do: 'start' }],
    [400, { do: 'lane-out', lanes: [2] }],
  ]);

const TIMES = [
  { lane: 1, at: 310_000, watches: [360_000] },
  { lane: 1, at: 790_000, watches: [170_000] },
];
const THERE = [
  { lane: 1, swimmers: 2, names: ['Ana', 'Chidi'] },
  { lane: 2, swimmers: 3, names: null },
];
const ADDED = { ...NOTHING_ADDED, effort: 6, times: TIMES, notes: ['windy'], marks: [{ command: 1, words: 'calf' }] };

test('[history] of all lanes together and of each, what was planned and swum', () => {
  expect(historyRun(recordOf(kept(), ADDED))).toEqual({
    ...{ run: 'run-1', title: 'Squad', openedAt: '2026-11-26T19:30:00', ended: 'done' },
    ...{ durationMs: 1_095_000, unit: 'm', plannedDistance: 1450, distance: 1250 },
    lanes: [
      { lane: 1, plannedDistance: 725, distance: 725 },
      { lane: 2, plannedDistance: 725, distance: 525 },
    ],
    // 6 x 18.25 minutes, the tail's 5 s among them.
    ...{ attendance: null, effort: 6, load: 110, notes: ['windy'] },
    css: [{ lane: 1, cssMs: 95_000, caution: null }],
  });
});

test('[history] a test that comes to no pace is none', () => {
  const times = TIMES.map((time) => ({ ...time, watches: [170_000] }));
  expect(historyRun(recordOf(kept(), { ...NOTHING_ADDED, times }))).toMatchObject({
    css: [],
    effort: null,
    load: null,
  });
});

test('[history] it is found by title, parts, notes, swimmers and marks with what was added, each once', () => {
  expect(searchedWords(recordOf(kept(), { ...ADDED, attendance: THERE }))).toEqual([
    ...['Squad', 'Warm-up', 'Main set', 'windy', 'Ana', 'Bram', 'Chidi', 'cramp, calf'],
  ]);
  expect(searchedWords(recordOf(kept()))).toEqual(['Squad', 'Warm-up', 'Main set', 'Ana', 'Bram', 'cramp']);
});

test('[RFC 4180] a row a run, with a column for each lane that any of them has, by number', () => {
  const one = historyRun(recordOf(kept(), { ...ADDED, attendance: THERE, notes: ['=late'] }));
  const other = historyRun(recordOf(keptRun('Squad; =b\nlane 10\nlane 3\n50 @ 1:00', [])));
  const rows = readCsv(historyCsv([other, one]));
  expect(rows).toEqual([
    [
      ...['day', 'opened at', 'title', 'ended', 'minutes', 'unit', 'planned distance', 'distance'],
      ...['were there', 'effort', 'load', 'lane 1', 'lane 2', 'lane 3', 'lane 10', 'notes'],
    ],
    ['2026-11-26', '19:30:00', "Squad;' =b", 'done', '60.0', 'm', '100', '0', '', '', '', '', '', '0', '0', ''],
    [
      '2026-11-26',
      '19:30:00',
      'Squad',
      'done',
      '18.3',
      'm',
      '1450',
      '1250',
      '5',
      '6',
      '110',
      '725',
      '525',
      '',
      '',
      "'=late",
    ],
  ]);
});
