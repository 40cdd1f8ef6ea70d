/*
 * The lanes over time: what was swum beside what was planned, how long it took of the booked time, and the stops. Times
 * below are in seconds since the run was opened at 19:30.
 */

import { describe, expect, test } from 'vitest';
import type { PartBar } from '../../../app/core/record/evening.ts';
import { recordOf } from '../../../app/core/record/record.ts';
import type { Command } from '../../../app/core/run/command/command.ts';
import { eventfulEvening } from '../../support/run/eventful-evening.ts';
import { keptRun } from '../../support/run/kept-run.ts';

const TEXT = `Squad
start 19:35
finish 20:35
lane 1
lane 2
Warm-up
2 x 50 easy @ 1:00
Main set
4 x 50 fast @ 1:00

Swim-down
100 easy
`;

type Deeds = readonly (readonly [number, Command])[];

const eveningOf = (deeds: Deeds, text = TEXT) => recordOf(keptRun(text, deeds, 3600)).evening;

const barsText = (bars: readonly PartBar[]): readonly string[] =>
  bars.map(({ part, fromMs, toMs }) => `${part} ${fromMs / 1000}-${toMs / 1000}`);

/** T0 at 10 s and at 310 s. */
const SWUM: Deeds = [
  [0, { do: 'start' }],
  [300, { do: 'start' }],
  [800, { do: 'start' }],
  [900, { do: 'finish' }],
];

describe('[evening] bars', () => {
  test('a part is swum from its first leave for the intervals of its reps; an untimed set to the coach’s word', () => {
    const { lanes } = eveningOf(SWUM);
    expect(barsText(lanes[0]!.swum)).toEqual(['Warm-up 10-130', 'Main set 310-550', 'Swim-down 810-900']);
  });

  test('what was planned stands where the session says that it starts, with the time between parts', () => {
    const planned = barsText(eveningOf(SWUM).lanes[1]!.planned);
    expect(planned.slice(0, 2)).toEqual(['Warm-up 300-420', 'Main set 480-720']);
  });

  test('a session that does not say when it starts is planned from its first start', () => {
    const { lanes } = eveningOf(SWUM, TEXT.replace(/start 19:35\nfinish 20:35\n/, ''));
    expect(barsText(lanes[0]!.planned)[0]).toBe('Warm-up 10-130');
  });

  test('a lane that was stopped has a gap, and that it was stopped is told', () => {
    const { lanes } = eveningOf([
      [0, { do: 'start' }],
      [20, { do: 'stop', lanes: [2] }],
      [200, { do: 'resume', lanes: [2] }],
    ]);
    expect(barsText(lanes[0]!.swum)).toEqual(['Warm-up 10-130']);
    expect(barsText(lanes[1]!.swum)).toEqual(['Warm-up 10-70', 'Warm-up 210-270']);
    expect(lanes.map(({ stopped }) => stopped)).toEqual([[], [{ fromMs: 20_000, toMs: 200_000 }]]);
  });

  test('nothing begun is nothing swum, and nothing planned without a start is planned from the opening', () => {
    const { lanes } = eveningOf([[5, { do: 'finish' }]], 'Squad\nMain set\n2 x 50 @ 1:00\n');
    expect([lanes[0]!.swum, barsText(lanes[0]!.planned)]).toEqual([[], ['Main set 0-120']]);
  });
});

describe('[evening] figures', () => {
  test('the booked time goes from the start to the finish, also over midnight; none without one of them', () => {
    expect(eveningOf(SWUM).bookedMs).toBe(3_600_000);
    expect(eveningOf(SWUM, TEXT.replace('19:35', '23:50').replace('20:35', '0:20')).bookedMs).toBe(1_800_000);
    expect(eveningOf(SWUM, TEXT.replace('finish 20:35\n', '')).bookedMs).toBeNull();
  });

  test('stops are counted by command, and the time in which any lane stood is counted once', () => {
    const { stops } = eveningOf([
      [0, { do: 'start' }],
      [20, { do: 'stop', lanes: [2] }],
      [30, { do: 'stop' }],
      [50, { do: 'resume', lanes: [1] }],
      [60, { do: 'resume' }],
      [62, { do: 'stop' }],
      [80, { do: 'rejoin' }],
    ]);
    expect(stops).toEqual({ count: 3, timeMs: 58_000 });
  });

  test('a Stop that was taken back is none; one that lasted to the end lasted so long', () => {
    const undone = eveningOf([
      [0, { do: 'start' }],
      [20, { do: 'stop' }],
      [24, { do: 'undo' }],
    ]);
    expect(undone.stops).toEqual({ count: 0, timeMs: 0 });
    const ended = eveningOf([
      [0, { do: 'start' }],
      [20, { do: 'stop' }],
      [50, { do: 'finish' }],
    ]);
    expect(ended.stops).toEqual({ count: 1, timeMs: 30_000 });
  });

  test('a Stop in a break that only holds what follows is one too, but no lane stands for it; not where it was taken back', () => {
    const text = 'Squad\nlane 1\nWarm-up\n2 x 50 @ 1:00\nbreak 5:00\nMain set\n2 x 50 @ 1:00\n';
    const start: Deeds = [[0, { do: 'start' }]];
    const { stops, lanes } = eveningOf([...start, [220, { do: 'stop' }]], text);
    expect([stops, lanes[0]!.stopped]).toEqual([{ count: 1, timeMs: 0 }, []]);
    const undone = eveningOf([...start, [220, { do: 'stop' }], [224, { do: 'undo' }]], text);
    expect(undone.stops.count).toBe(0);
  });

  test('a Stop whose Resume was taken back is one, without a gap', () => {
    const { stops } = eveningOf([
      [0, { do: 'start' }],
      [20, { do: 'stop' }],
      [30, { do: 'resume' }],
      [31, { do: 'undo' }],
      [50, { do: 'resume' }],
    ]);
    expect(stops).toEqual({ count: 1, timeMs: 30_000 });
  });

  test('a lane that comes in stopped stands by the Stop of the others', () => {
    const { stops } = eveningOf([
      [0, { do: 'start' }],
      [5, { do: 'lane-out', lanes: [2] }],
      [20, { do: 'stop' }],
      [30, { do: 'lane-in', lanes: [2] }],
      [50, { do: 'resume' }],
    ]);
    expect(stops).toEqual({ count: 1, timeMs: 30_000 });
  });

  test('a Stop ends for a lane that loses its last rep', () => {
    const { lanes } = eveningOf([
      [0, { do: 'start' }],
      [20, { do: 'stop' }],
      [40, { do: 'skip', lanes: [1] }],
      [60, { do: 'resume' }],
    ]);
    expect(lanes.map(({ stopped }) => stopped[0]?.toMs)).toEqual([40_000, 60_000]);
  });

  test('of the eventful evening', () => {
    const { stops, bookedMs, lanes } = recordOf(eventfulEvening()).evening;
    expect([stops, bookedMs, lanes.length]).toMatchInlineSnapshot(`
      [
        {
          "count": 5,
          "timeMs": 329000,
        },
        3600000,
        6,
      ]
    `);
  });
});
