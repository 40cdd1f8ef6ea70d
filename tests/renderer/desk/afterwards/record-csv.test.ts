import { expect, test } from 'vitest';
import type { Command } from '../../../../app/core/run/command/command.ts';
import type { Away } from '../../../../app/core/run/record.ts';
import { view } from '../../../../app/core/run/view.ts';
import { recordCsv, recordFileName } from '../../../../renderer/desk/afterwards/record-csv.ts';
import { runOf } from '../../../support/coach/coach-run.ts';
import { readCsv } from '../../../support/formats/csv-reader.ts';

const HALF_PAST_SEVEN = (19 * 60 + 30) * 60_000;

function record(
  text: string,
  away: readonly Away[],
  ...commands: readonly (readonly [number, Command])[]
): readonly (readonly string[])[] {
  const now = view(runOf(text, ...commands), 10_000_000);
  const given = commands.map(([at, command]) => ({ at, command }));
  const { plan } = runOf(text);
  return readCsv(recordCsv(now, { plan, clockPhase: 0, commands: given, openedAtTimeOfDay: HALF_PAST_SEVEN, away }));
}

test('every leave that happened and every mark has its row, by time', () => {
  // T0 10 s after the word at 5 s: 0:15 of the run is 19:30:15 by the clock on the wall.
  const [header, ...rows] = record(
    'lane 1 3 swimmers, gap 10\nlane 2\nMain, "hard"\n2 rounds\n  2 x 50 =fast @ 1:00',
    [],
    [5_000, { do: 'start' }],
    [20_000, { do: 'mark', lanes: [1, 2], words: 'goggles, again' }],
    [76_000, { do: 'finish' }],
  );
  expect(header).toHaveLength(14);
  expect(rows.map((row) => row.join('|'))).toEqual([
    'start|19:30:05|5|||||||||Started Main, "hard": first leave in 10 s.||',
    'leave|19:30:15|15|1|Main, "hard"|5|1 of 2|1|2|50|m|\'=fast|3|10',
    'leave|19:30:15|15|2|Main, "hard"|5|1 of 2|1|2|50|m|\'=fast|1|5',
    'mark|19:30:20|20|1 2||||||||goggles, again||',
    'leave|19:31:15|75|1|Main, "hard"|5|1 of 2|2|2|50|m|\'=fast|3|10',
    'leave|19:31:15|75|2|Main, "hard"|5|1 of 2|2|2|50|m|\'=fast|1|5',
    'finish|19:31:16|76|||||||||Finished.||',
  ]);
});

test('stops, skips, sit-outs, moves and all other commands have theirs, with what they did and whether it was undone', () => {
  const rows = record(
    'lane 1\nlane 2\nMain\n8 x 50 fast @ 1:00\nSwim-down\n50 easy',
    [],
    [0, { do: 'start' }],
    [12_000, { do: 'stop', lanes: [2] }],
    [15_000, { do: 'skip', lanes: [1] }],
    [17_000, { do: 'undo' }],
    [20_000, { do: 'sit-out', lanes: [2] }],
    [30_000, { do: 'resume' }],
    [40_000, { do: 'cut', line: 4, n: 2 }],
    [60_000, { do: 'move-on' }],
    [61_000, { do: 'finish' }],
  ).slice(1);
  const commands = rows.filter(([what]) => what !== 'leave');
  expect(commands.map((row) => `${row[0]} at ${row[2]}, lanes ${row[3]}: ${row[11]}`)).toEqual([
    'start at 0, lanes : Started Main: first leave in 10 s.',
    'stop at 12, lanes 2: Stopped lane 2.',
    expect.stringMatching(/^skip, undone at 15, lanes 1: Skipped 50 fast in lane 1: next leave/),
    'undo at 17, lanes : Undone: Skip rep.',
    'sit-out at 20, lanes 2: Sat out 50 fast in lane 2: still stopped.',
    expect.stringMatching(/^resume at 30, lanes : Resumed lane 2/),
    expect.stringMatching(/^cut at 40, lanes : Cut 2 of 8 x 50 fast/),
    expect.stringMatching(/^move-on at 60, lanes : Moved on to Swim-down/),
    'finish at 61, lanes : Finished.',
  ]);
});

test('times in the sentences are of the day, with what the clock since the last start read; the head says so', () => {
  const [header, ...rows] = record(
    'lane 1\nOne\n50 @ 1:00\nTwo\n4 x 50 @ 1:00',
    [],
    [0, { do: 'start' }],
    [100_000, { do: 'start' }],
    [120_000, { do: 'shift', seconds: 5 }],
    [130_000, { do: 'finish' }],
  );
  expect(header![11]).toBe('words (times of day, in brackets the clock since the last start)');
  expect(rows.find(([what]) => what === 'shift')![11]).toBe('5 s later in lane 1: next leave 19:32:55 (1:05).');
});

test('what fell due while the program was not there is marked as not called, the moment it was seen last left out', () => {
  const rows = record('lane 1\nMain\n4 x 50 @ 1:00', [{ from: 15_000, to: 135_000 }], [5_000, { do: 'start' }]).slice(
    2,
  );
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
