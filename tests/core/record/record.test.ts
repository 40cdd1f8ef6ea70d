/* The record of a run, held against the rehearsal of the same commands and against what was worked out by hand. */

import { beforeEach, describe, expect, test } from 'vitest';
import { rehearsal } from '../../../app/cli/rehearse.ts';
import { courseOf } from '../../../app/core/record/course/course.ts';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import { recordJson, type RecordJson } from '../../../app/core/record/tables/record-json.ts';
import { recordOf, type RunRecord } from '../../../app/core/record/record.ts';
import type { KeptRun } from '../../../app/core/record/kept-run.ts';
import type { Command } from '../../../app/core/run/command/command.ts';
import { MINUTE, SECOND } from '../../../app/core/units.ts';
import { eventfulEvening, eveningScript } from '../../support/run/eventful-evening.ts';
import { keptRun } from '../../support/run/kept-run.ts';
import { recordedLeaves } from '../../support/run/recorded.ts';

let evening: KeptRun;
let record: RunRecord;
let json: RecordJson;

beforeEach(() => {
  evening = eventfulEvening();
  record = recordOf(evening);
  json = recordJson(record);
});

describe('[record] the eventful evening', () => {
  test('it agrees line by line with its script: every command, at its time, and which was undone', () => {
    expect(json.commands).toEqual(
      eveningScript().map(({ atMs, fields }) => ({ atMs, ...fields, ...(atMs === 1_599_000 ? { undone: true } : {}) })),
    );
  });

  test('its leaves are those of the rehearsal of the same commands', () => {
    expect(recordedLeaves(json)).toEqual(rehearsal(evening.plan, 0, eveningScript()).leaves);
  });

  test('each lane has what was planned by the text in force at the end, and what it swam', () => {
    // By hand, with the sprint that was written in: lane 1 400 + 300 + 3 × 300 + 375 + 25 + 200; it swam a
    // round less and, as the 75s were cut by one, 75 less. Lane 3 missed a drill, for a cramp, and its sprint.
    expect(json.lanes.map(({ plannedDistance, distance }) => [plannedDistance, distance])).toEqual([
      [2200, 1825],
      [2200, 1825],
      [2150, 1700],
      [1875, 1550],
      [1825, 1500],
      [1825, 1500],
    ]);
    expect(json.lanes.map(({ lane, swimmers, names }) => [lane, swimmers, names])).toEqual([
      [1, 5, null],
      [2, 4, null],
      [3, 4, null],
      [4, 3, null],
      [5, 3, null],
      [6, 3, null],
    ]);
  });

  test('each part took from its first start to its last end, against the plan', () => {
    expect(json.parts).toEqual([
      // 4 × 2:30 of lanes 5 and 6 and a tail of 10 s; from 1:05, lane 4 resumed 20 s late: 8:10 + 2:15 + 20 s, lane 6
      // 8:35 + 2:30 + 10 s.
      { part: 'Warm-up', plannedMs: 10 * MINUTE + 10 * SECOND, durationMs: 10 * MINUTE + 10 * SECOND },
      // A talk of 2:00 and six 50s; from the talk's start at 11:40 to lane 4's end at 22:40.
      { part: 'Turns', plannedMs: 9 * MINUTE + 50 * SECOND, durationMs: 11 * MINUTE },
      { part: 'Main set', plannedMs: json.parts[2]!.plannedMs, durationMs: 3_104_000 - 1_415_000 },
      { part: 'Swim-down', plannedMs: 5 * MINUTE + 35 * SECOND, durationMs: 58 * MINUTE + 50 * SECOND - 3_230_000 },
    ]);
  });

  test('it lasted from its opening to its end', () => {
    expect(json).toMatchObject({ title: 'Harbour squad, an eventful Thursday', ended: 'done', durationMs: 3_530_000 });
    expect(json.openedAt).toBe('2026-11-26T19:30:00');
  });
});

const TEXT = `Squad
start on 5
lane 1 Ana, Bram
lane 2

Main set
4 x 50 @ 1:00
break 0:30 drink

Swim-down
100 easy @ 2:00
`;

describe('[record] what happened', () => {
  test('[R2] a lane has the names that its line gives, and as many swimmers as it had at the end', () => {
    const lanes = recordJson(recordOf(keptRun(TEXT, [[0, { do: 'swimmers', lanes: [1], n: 3 }]]))).lanes;
    expect(lanes.map(({ swimmers, names }) => [swimmers, names])).toEqual([
      [3, ['Ana', 'Bram']],
      [1, null],
    ]);
  });

  test('what was planned of each lane has its leaves too, and a session without a title is called so', () => {
    expect(recordOf(keptRun(TEXT, [])).lanes.map(({ planned }) => planned)).toEqual([
      { leaves: 5, distance: 3000 },
      { leaves: 5, distance: 3000 },
    ]);
    const timed = recordOf(keptRun('lane 1\nlane 2\nlane 2: 5:00 easy', []));
    expect(timed.lanes.map(({ planned }) => planned.leaves)).toEqual([0, 1]);
    expect([timed.title, recordOf(keptRun(TEXT, [])).title]).toEqual(['Session', 'Squad']);
  });

  test('leaves that fell due while nobody was there are not called', () => {
    const kept = { ...keptRun(TEXT, [[0, { do: 'start' }]], 200), away: [{ from: 70_000, to: 130_000 }] };
    expect(recordJson(recordOf(kept)).lanes[0]!.leaves.map(({ atMs, called }) => [atMs, called])).toEqual([
      [10_000, true],
      [70_000, true],
      [130_000, false],
      [190_000, true],
    ]);
  });

  test('times in which nobody was there stand in it, with what was not called; not what came after its end', () => {
    const away = [
      { from: 75_000, to: 111_200 },
      { from: 120_000, to: 190_000 },
      { from: 400_000, to: 9_000_000 },
    ];
    const kept = {
      ...keptRun(TEXT, [[0, { do: 'start' }]], 9000),
      ended: 'unattended' as const,
      seenAt: 400_000,
      away,
    };
    expect(recordJson(recordOf(kept)).notRunning).toEqual([
      {
        ...{ fromMs: 75_000, toMs: 111_200 },
        words: 'Lanecall was not running for 36.2 s. No leave was due in that time.',
      },
      {
        ...{ fromMs: 120_000, toMs: 190_000 },
        words:
          'Lanecall was not running for 1:10. Not called in that time: lane 1: 50, reps 3 and 4; lane 2: 50, reps 3 and 4.',
      },
    ]);
  });

  test('a run that is not over is recorded as far as it is known', () => {
    const going = recordJson(recordOf({ ...keptRun(TEXT, [[0, { do: 'start' }]], 75), ended: 'going' }));
    expect(going.lanes[0]!.leaves.map(({ atMs }) => atMs)).toEqual([10_000, 70_000]);
    expect([going.durationMs, going.parts[0]!.durationMs]).toEqual([75_000, 65_000]);
  });

  test('one that nobody came back to lasted as long as somebody was there, or the last leave', () => {
    const kept = keptRun(TEXT, [[0, { do: 'start' }]], 86_400);
    const at = (seenAt: number) => recordOf({ ...kept, ended: 'unattended', seenAt }).duration;
    expect([at(75_000), at(300_000)]).toEqual([190_000, 300_000]);
    const one = keptRun('One\n50 @ 1:00\nTwo\n50 @ 1:00', [[0, { do: 'start' }]], 86_400);
    expect(recordOf({ ...one, ended: 'unattended', seenAt: 5000 }).duration).toBe(10_000);
  });

  test('one that is not given up lasted as far as it is known, whenever somebody was there', () => {
    const kept = { ...keptRun(TEXT, [[0, { do: 'start' }]], 75), seenAt: 100_000 };
    const duration = (ended: KeptRun['ended'], seenAt = 100_000) => recordOf({ ...kept, ended, seenAt }).duration;
    expect([duration('going'), duration('left'), duration('unattended')]).toEqual([75_000, 75_000, 100_000]);
    expect(recordOf({ ...keptRun(TEXT, [[0, { do: 'start' }]], 20), ended: 'unattended', seenAt: 5000 }).duration).toBe(
      10_000,
    );
  });

  test('a leave has the part that it was in, of a text that a rewrite has brought too', () => {
    const other = TEXT.replace('Swim-down\n100 easy', 'Sprints\n25 fast');
    const record = recordOf(
      keptRun(TEXT, [
        [0, { do: 'start' }],
        [20, { do: 'rewrite', text: other }],
        [300, { do: 'start' }],
      ]),
    );
    expect(record.lanes[0]!.leaves.map(({ part }) => part)).toEqual([...new Array(4).fill('Main set'), 'Sprints']);
    // What joins the part that is going, with no command after it.
    const longer = TEXT.replace('4 x 50 @ 1:00', '4 x 50 @ 1:00\n2 x 25 fast @ 0:30');
    const joined = recordOf(
      keptRun(TEXT, [
        [0, { do: 'start' }],
        [20, { do: 'rewrite', text: longer }],
      ]),
    );
    expect(joined.lanes[0]!.leaves.map(({ part, rep }) => `${part} ${rep.distance / 10}`)).toEqual([
      ...new Array<string>(4).fill('Main set 50'),
      ...new Array<string>(2).fill('Main set 25'),
    ]);
  });

  test('nothing is added at first, and words that are added to one mark follow one another', () => {
    expect(NOTHING_ADDED).toEqual({ marks: [], notes: [], attendance: null, effort: null, times: [] });
    const marks = ['left', 'calf'].map((words) => ({ command: 0, words }));
    const [mark] = recordOf(keptRun(TEXT, [[5, { do: 'mark' }]]), { ...NOTHING_ADDED, marks }).commands;
    expect(mark!.added).toBe('left calf');
  });

  test('a mark has the words that were added to it', () => {
    const kept = keptRun(TEXT, [
      [5, { do: 'mark', lanes: [2], words: 'cramp' }],
      [6, { do: 'mark' }],
    ]);
    const { commands } = recordJson(recordOf(kept, { ...NOTHING_ADDED, marks: [{ command: 0, words: 'left calf' }] }));
    expect(commands).toEqual([
      { atMs: 5000, do: 'mark', lanes: [2], words: 'cramp', added: 'left calf' },
      { atMs: 6000, do: 'mark' },
    ]);
  });

  test('[Foster 2001] effort 6 over 75 minutes is a load of 450', () => {
    const kept = keptRun(TEXT, [[75 * 60, { do: 'finish' }]]);
    expect(recordJson(recordOf(kept, { ...NOTHING_ADDED, effort: 6 }))).toMatchObject({ effort: 6, load: 450 });
    expect(recordJson(recordOf(kept))).toMatchObject({ effort: null, load: null, notes: [], attendance: null });
  });
});

describe('[record] how long a part took', () => {
  const spans = (commands: readonly (readonly [number, Command])[], until = 3600): string[] =>
    courseOf(keptRun(TEXT, commands, until)).spans.map(({ part, from, to }) => `${part} ${from / 1000}-${to / 1000}`);
  const parts = (commands: readonly (readonly [number, Command])[], until = 3600): number[] =>
    recordOf(keptRun(TEXT, commands, until)).parts.map(({ taken }) => taken / 1000);
  const start = [0, { do: 'start' }] as const;

  test('[R5] a stretch that ends by itself, and the break that follows by itself', () => {
    // From 10 s, four reps of a minute and a tail of 5 s; then half a minute.
    expect(spans([start])).toEqual(['Main set 10-255', 'Main set 255-285']);
    expect(parts([start])).toEqual([275, 0]);
    expect(parts([start], 255)).toEqual([245, 0]);
  });

  test('a stretch that a command ends', () => {
    expect(spans([start, [100, { do: 'move-on' }]])).toEqual(['Main set 10-100', 'Main set 100-130']);
    expect(spans([start, [100, { do: 'finish' }]])).toEqual(['Main set 10-100']);
  });

  test('[R6] what a command finds on its way to the loudspeaker has begun, and ended what went before', () => {
    const text = 'T\nstart on 5\nMain\n50 @ 1:00\nbreak 0:30\n50 @ 1:00';
    const kept = keptRun(text, [start, [99.9, { do: 'finish' }]]);
    expect(courseOf(kept).spans.map(({ from, to }) => [from / 1000, to / 1000])).toEqual([
      [10, 70],
      [70, 100],
    ]);
  });

  test('a start that is brought forward, or taken back before its time, begins nothing twice', () => {
    expect(spans([start, [3, { do: 'undo' }]])).toEqual([]);
    expect(spans([start, [3, { do: 'restart' }]])).toEqual([]);
    expect(spans([start, [10, { do: 'restart' }]])).toEqual([]);
  });

  test('a part swum again has both passages, not what lay between', () => {
    const again = [
      start,
      [300, { do: 'start' }],
      [350, { do: 'go-to', line: 7, rep: 4 }],
      [400, { do: 'start' }],
    ] as const;
    expect(spans(again)).toEqual([
      'Main set 10-255',
      'Main set 255-285',
      'Swim-down 310-350',
      'Main set 410-475',
      'Main set 475-505',
    ]);
    expect(parts(again)).toEqual([275 + 95, 40]);
  });

  test('[undo] a Move on that is undone leaves no trace', () => {
    expect(spans([start, [100, { do: 'move-on' }], [104, { do: 'undo' }]])).toEqual([
      'Main set 10-255',
      'Main set 255-285',
    ]);
  });

  test('[undo] one undone too late, as if lanes had been stopped, goes on in the same stretch', () => {
    // The leaves at 130 s did not happen; undone at 132 s lanes go on at 145 s.
    const late = [start, [125, { do: 'move-on' }], [132, { do: 'undo' }]] as const;
    expect(spans(late)).toEqual(['Main set 10-270', 'Main set 270-300']);
  });

  test('a part that a rewrite has taken out still took its time', () => {
    const other = TEXT.replace('Swim-down\n100 easy', 'Sprints\n25 fast');
    const commands = [
      start,
      [300, { do: 'start' }],
      [350, { do: 'restart' }],
      [355, { do: 'rewrite', text: other }],
    ] as const;
    expect(recordOf(keptRun(TEXT, commands, 400)).parts).toEqual([
      { part: 'Main set', planned: 275_000, taken: 275_000 },
      { part: 'Sprints', planned: 125_000, taken: 0 },
      { part: 'Swim-down', planned: 0, taken: 40_000 },
    ]);
  });
});
