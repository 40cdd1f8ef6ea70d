/*
 * Every command of a run with what it did, for the record.
 */

import { expect, test } from 'vitest';
import { commandRecords } from '../../../../app/core/run/feedback/command-record.ts';
import type { Command, TimedCommand } from '../../../../app/core/run/command/command.ts';
import { HOUR } from '../../../../app/core/units.ts';
import { planOf } from '../../../support/run/deck.ts';

const records = (...commands: readonly (readonly [seconds: number, Command])[]) =>
  commandRecords({
    plan: planOf('lane 1\nlane 2\nSet\n4 x 50 @ 1:00'),
    clockPhase: 0,
    openedAtTimeOfDay: 19 * HOUR,
    commands: commands.map(([seconds, command]): TimedCommand => ({ at: seconds * 1000, command })),
  });

test('[record] each command has its time, the lanes it named, and its sentence with times of day', () => {
  expect(records([0, { do: 'start' }], [20, { do: 'skip', lanes: [2] }], [21, { do: 'shift', seconds: 5 }])).toEqual([
    { at: 0, command: { do: 'start' }, lanes: [], undone: false, did: 'Started Set: first leave in 10 s.' },
    {
      at: 20_000,
      command: { do: 'skip', lanes: [2] },
      lanes: [2],
      undone: false,
      did: 'Skipped 50 m in lane 2: next leave 19:01:10 (1:00).',
    },
    {
      at: 21_000,
      command: { do: 'shift', seconds: 5 },
      lanes: [],
      undone: false,
      did: '5 s later in all lanes: next leave 19:01:15 (1:05).',
    },
  ]);
});

test('[record] a time before a start is that of the clock that runs on', () => {
  const told = commandRecords({
    plan: planOf('start on 60\nOne\n50 @ 1:00\nTwo\n50 @ 1:00'),
    clockPhase: 0,
    openedAtTimeOfDay: 19 * HOUR,
    commands: [
      { at: 0, command: { do: 'start' } },
      { at: 130_000, command: { do: 'start' } },
      { at: 131_000, command: { do: 'shift', seconds: -30 } },
    ],
  });
  // From T0 at 1:00 to the leave at 2:30, while the next T0 is to be at 3:00.
  expect(told[2]!.did).toBe('30 s sooner in lane 1: next leave 19:02:30 (1:30).');
});

test('[record] one that was undone says so, and so does the undo what it took back', () => {
  const told = records(
    [0, { do: 'start' }],
    [20, { do: 'stop' }],
    [22, { do: 'undo' }],
    [30, { do: 'mark', words: 'x' }],
  );
  expect(told.map(({ command, undone, did }) => [command.do, undone, did])).toEqual([
    ['start', false, 'Started Set: first leave in 10 s.'],
    ['stop', true, 'Stopped all lanes.'],
    ['undo', false, 'Undid Stop.'],
    ['mark', false, 'Marked: x.'],
  ]);
});
