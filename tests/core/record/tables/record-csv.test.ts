/* The record for a spreadsheet: a row for everything that happened, and no cell that runs. */

import { beforeEach, describe, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../../app/core/record/afterwards.ts';
import { recordCsv } from '../../../../app/core/record/tables/record-csv.ts';
import { recordOf } from '../../../../app/core/record/record.ts';
import { readCsv } from '../../../support/formats/csv-reader.ts';
import { eventfulEvening } from '../../../support/run/eventful-evening.ts';
import { keptRun } from '../../../support/run/kept-run.ts';

/** The head of the last column. */
const WORDS = 'words (times of day, in brackets the clock since the last start)';

const TEXT = `Squad
lane 1 base 1:00, 2 swimmers
lane 2 base 1:00

Main set
2 rounds
  62.5 free @ 1:00
`;

describe('[RFC 4180] the rows', () => {
  const kept = keptRun(TEXT, [
    [0, { do: 'start' }],
    [20, { do: 'mark', lanes: [2], words: '=1+1' }],
    [30, { do: 'skip', lanes: [2] }],
  ]);
  const added = {
    ...NOTHING_ADDED,
    marks: [{ command: 1, words: 'sums' }],
    times: [{ lane: 1, at: 10_000, watches: [48_120, 48_290] }],
  };
  let [head, ...rows]: readonly (readonly string[])[] = [];
  beforeEach(() => {
    [head, ...rows] = readCsv(recordCsv(recordOf({ ...kept, away: [{ from: 60_000, to: 80_000 }] }, added)));
  });
  const cell = (row: number, name: string): string => rows[row]![head!.indexOf(name)]!;

  test('leaves and commands by time, a leave that was not called as such', () => {
    expect(rows.map(([what, , at, lane]) => `${what} ${at} ${lane}`.trim())).toEqual([
      'start 0',
      'leave 10 1',
      'leave 10 2',
      'mark 20 2',
      'skip 30 2',
      'not running 60',
      'leave not called 70 1',
    ]);
  });

  test('a leave has its time of day, its rep, and its hand time and pace in tenths', () => {
    const names = ['time of day', 'round', 'rep', 'of', 'distance', 'unit', 'swimmers', 'gap in s', WORDS];
    expect(names.map((name) => cell(1, name))).toEqual(['19:30:10', '1 of 2', '1', '1', '62.5', 'm', '2', '5', 'free']);
    // 48.205 by two watches is 48.20, and 77.12 a 100.
    expect([cell(1, 'hand time in s'), cell(1, 'pace per 100 in s')]).toEqual(['48.2', '77.1']);
    expect([cell(2, 'hand time in s'), cell(2, 'pace per 100 in s')]).toEqual(['', '']);
  });

  test('[formulas] a mark that a spreadsheet would run is words, with what was added behind it', () => {
    expect(cell(3, WORDS)).toBe("'=1+1, sums");
  });

  test('a time in which the program was not running has how long, and what was not called', () => {
    expect(cell(5, WORDS)).toBe(
      'Lanecall was not running for 20 s. Not called in that time: lane 1: 62.5 free, rep 1.',
    );
  });

  test('a command has the sentence that told what it did', () => {
    expect(cell(4, WORDS)).toBe('Skipped 62.5 free in lane 2: nothing left in this stretch.');
  });
});

test('[RFC 4180] the whole table: leaves before commands of the same moment, by lane, and nothing of a rep beside a command', () => {
  const kept = keptRun(TEXT, [
    [0, { do: 'start' }],
    [10, { do: 'mark', lanes: [1, 2], words: 'a; =b' }],
    [11, { do: 'mark' }],
    [12, { do: 'mark', words: 'cramp' }],
    [20, { do: 'stop' }],
  ]);
  const added = { ...NOTHING_ADDED, marks: [{ command: 3, words: 'Cramp, left calf' }] };
  expect(recordCsv(recordOf(kept, added)).split('\r\n')).toEqual([
    `what,time of day,in s from the opening,lane,part,line,round,rep,of,distance,unit,swimmers,gap in s,hand time in s,pace per 100 in s,"${WORDS}"`,
    `start,19:30:00,0${','.repeat(13)}Started Main set: first leave in 10 s.`,
    'leave,19:30:10,10,1,Main set,7,1 of 2,1,1,62.5,m,2,5,,,free',
    'leave,19:30:10,10,2,Main set,7,1 of 2,1,1,62.5,m,1,5,,,free',
    `mark,19:30:10,10,1 2${','.repeat(12)}"a;' =b"`,
    `mark,19:30:11,11${','.repeat(13)}`,
    `mark,19:30:12,12${','.repeat(13)}"Cramp, left calf"`,
    `stop,19:30:20,20${','.repeat(13)}Stopped all lanes.`,
    '',
  ]);
});

test('[eventful evening] one row a leave and one a command, the one that was undone as such', () => {
  const record = recordOf(eventfulEvening());
  const rows = readCsv(recordCsv(record)).slice(1);
  const leaves = record.lanes.reduce((sum, lane) => sum + lane.leaves.length, 0);
  expect(rows).toHaveLength(leaves + record.commands.length);
  expect(rows.filter(([what]) => what === 'move-on, undone')).toHaveLength(1);
});

test('[RFC 4180] who was there, effort, load and notes stand below, and none of them is run as a formula', () => {
  const attendance = [
    { lane: 1, swimmers: 2, names: ['=Ana', 'Bram'] },
    { lane: 2, swimmers: 3, names: null },
  ];
  const added = { ...NOTHING_ADDED, attendance, effort: 6, notes: ['@calm', 'fins earlier'] };
  expect(
    recordCsv(recordOf(keptRun(TEXT, []), added))
      .split('\r\n')
      .slice(1),
  ).toEqual([
    `there,,,1${','.repeat(8)}2,,,,"'=Ana, Bram"`,
    `there,,,2${','.repeat(8)}3,,,,`,
    `effort${','.repeat(15)}6`,
    `load${','.repeat(15)}360`,
    `note${','.repeat(15)}'@calm`,
    `note${','.repeat(15)}fins earlier`,
    '',
  ]);
});
