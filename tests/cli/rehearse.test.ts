/* `lanecall rehearse`: what it prints for a session and a script, and what it refuses. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { rehearsal, type RehearsalJson } from '../../app/cli/rehearse.ts';
import { planOf } from '../support/run/deck.ts';
import { lanecall } from '../support/system/command-line.ts';

const TEXT = `Squad
start on 5
lane 1 base 1:00, 3 swimmers, gap 5
lane 2 base 1:00

Main set
2 rounds
  2 x 62.5m @ 1:00/1:10
break 0:30 drink

Swim-down
100 easy @ 2:00
`;

const SWIM_DOWN = 12;

describe('[rehearse] what happens', () => {
  test('without a script nothing happens: the session waits for the coach’s word', () => {
    const json = rehearsal(planOf(TEXT), 0, []);
    // At 0, as if started now: 10 s, 280 s of lane 2, 30 s of break, 60 s between, 120 s and lane 1's tail of 10 s.
    expect(json).toEqual({
      leaves: [],
      answers: [],
      phase: 'waiting',
      stretch: 0,
      endMs: null,
      projectedEndMs: 10_000 + 280_000 + 30_000 + 60_000 + 120_000 + 10_000,
    });
  });

  test('leaves come by time, then lane, with rounds and the distance in the pool’s unit', () => {
    const json = rehearsal(planOf(TEXT), 0, [{ atMs: 0, fields: { do: 'start' } }]);
    expect(json.leaves.map(({ atMs, lane }) => [atMs / 1000, lane])).toEqual([
      [10, 1],
      [10, 2],
      [70, 1],
      [80, 2],
      [130, 1],
      [150, 2],
      [190, 1],
      [220, 2],
    ]);
    expect(json.leaves[4]).toEqual({
      lane: 1,
      stretch: 0,
      line: 8,
      rounds: [{ round: 2, of: 2 }],
      rep: 1,
      of: 2,
      distance: 62.5,
      atMs: 130_000,
    });
    // After the break the swim-down waits for a word that never comes.
    expect(json).toMatchObject({ phase: 'waiting', stretch: 2, endMs: null });
  });

  test('it goes on to the end where nothing more waits', () => {
    const json = rehearsal(planOf(TEXT), 0, [
      { atMs: 0, fields: { do: 'start' } },
      { atMs: 400_000, fields: { do: 'start' } },
    ]);
    // T0 is 410 s; lane 1's tail ends 10 s after its lead.
    expect(json).toMatchObject({ phase: 'done', stretch: 2, endMs: 540_000, projectedEndMs: 540_000 });
    expect(json.leaves.filter(({ line }) => line === SWIM_DOWN)).toMatchObject([{ atMs: 410_000 }, { atMs: 410_000 }]);
  });

  test('the phase is what the pool’s clock shows at the start', () => {
    const json = rehearsal(planOf(TEXT), 59_000, [{ atMs: 0, fields: { do: 'start' } }]);
    expect(json.leaves[0]).toMatchObject({ atMs: 11_000 });
  });

  test('every command has its answer, the refused their sentence, and these change nothing', () => {
    const script = [
      { atMs: 0, fields: { do: 'start' } },
      { atMs: 1000, fields: { do: 'hop' } },
      { atMs: 1000, fields: { do: 'shift', seconds: 700 } },
      { atMs: 1000, fields: { do: 'resume' } },
      { atMs: 20_000, fields: { do: 'skip', lanes: [2] } },
    ];
    const json = rehearsal(planOf(TEXT), 0, script);
    expect(json.answers.map(({ atMs, do: name, ok }) => [atMs, name, ok])).toEqual([
      [0, 'start', true],
      [1000, 'hop', false],
      [1000, 'shift', false],
      [1000, 'resume', false],
      [20_000, 'skip', true],
    ]);
    for (const { ok, message } of json.answers) expect(message === null).toBe(ok);
    const alone = rehearsal(planOf(TEXT), 0, [script[0]!, script[4]!]);
    expect(json.leaves).toEqual(alone.leaves);
  });

  test('the projection is that just after the last command, a refused one too', () => {
    const script = [
      { atMs: 0, fields: { do: 'start' } },
      { atMs: 100_000, fields: { do: 'stop' } },
      { atMs: 300_000, fields: { do: 'start' } },
    ];
    const json = rehearsal(planOf(TEXT), 0, script);
    expect(json.answers[2]!.ok).toBe(false);
    // As if resumed at 300 s: lane 1 leaves its third rep at 310 s, 180 s late; lane 2 keeps its place to it.
    expect(json.projectedEndMs).toBe(10_000 + 280_000 + 180_000 + 30_000 + 60_000 + 120_000 + 10_000);
    expect(json).toMatchObject({ phase: 'going', stretch: 0, endMs: null });
  });
});

describe('[rehearse] at the command line', () => {
  let folder: string;

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'lanecall-rehearse-'));
    writeFileSync(join(folder, 'session.txt'), TEXT);
    writeFileSync(join(folder, 'lanes.txt'), 'lane 1\nlane 2\nlane 3\n');
    writeFileSync(join(folder, 'faulty.txt'), 'Main\n4 x 50 @ 1.30\n');
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const rehearse = (script: string, ...args: string[]) =>
    lanecall(['rehearse', 'session.txt', '--script', '-', ...args], folder, script);

  test('prints the rehearsal as JSON and nothing else', async () => {
    const { status, stdout, stderr } = await rehearse(
      '{"atMs": 0, "do": "start"}\n',
      '--phase',
      '59000',
      '--format',
      'json',
    );
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(JSON.parse(stdout)).toEqual(rehearsal(planOf(TEXT), 59_000, [{ atMs: 0, fields: { do: 'start' } }]));
  });

  test('blank lines, CR LF and a byte-order mark mean nothing', async () => {
    const { stdout } = await rehearse(
      '\uFEFF\r\n{"atMs": 0, "do": "start"}\r\n\r\n   \r\n{"atMs": 5000, "do": "mark"}',
    );
    expect((JSON.parse(stdout) as RehearsalJson).answers.map(({ ok }) => ok)).toEqual([true, true]);
  });

  test('a field named __proto__ is refused as any unknown field', async () => {
    const { stdout } = await rehearse('{"atMs": 0, "do": "start", "__proto__": {"lanes": [1]}}\n');
    expect((JSON.parse(stdout) as RehearsalJson).answers).toEqual([
      { atMs: 0, do: 'start', ok: false, message: 'The command start has no field "__proto__".' },
    ]);
  });

  test('every faulty line of a script is named, with nothing on standard output', async () => {
    const { status, stdout, stderr } = await rehearse(
      [
        '{"atMs": 5000, "do": "start"}',
        'start',
        '  [1]',
        '\t{"do": "start"}',
        '{"atMs": -1, "do": "start"}',
        '{"atMs": 1.5, "do": "start"}',
        '{"atMs": 6000}',
        '{"atMs": 6000, "do": 7}',
        '{"atMs": 4999, "do": "stop"}',
        '{"atMs": 5000, "do": "stop"}',
      ].join('\n'),
    );
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    const places = stderr
      .trimEnd()
      .split('\n')
      .map((line) => /^-:\d+:\d+: /.exec(line)?.[0]);
    expect(places).toEqual(['-:2:1: ', '-:3:3: ', '-:4:5: ', '-:5:1: ', '-:6:1: ', '-:7:1: ', '-:8:1: ', '-:9:1: ']);
  });

  test('a faulty session is named by its file', async () => {
    const { status, stdout, stderr } = await lanecall(['rehearse', 'faulty.txt', '--script', '-'], folder, '');
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toMatch(/^faulty\.txt:2:\d+: /);
  });

  test('a lanes file gives the lanes', async () => {
    writeFileSync(join(folder, 'plain.txt'), 'Main\n50 @ 1:00\n');
    const script = '{"atMs":0,"do":"start"}';
    const { stdout } = await lanecall(
      ['rehearse', 'plain.txt', '--lanes', 'lanes.txt', '--script', '-'],
      folder,
      script,
    );
    expect((JSON.parse(stdout) as RehearsalJson).leaves.map(({ lane }) => lane)).toEqual([1, 2, 3]);
  });

  test.each([
    [['rehearse', 'session.txt'], 64],
    [['rehearse', '--script', '-'], 64],
    [['rehearse', 'session.txt', 'session.txt', '--script', '-'], 64],
    [['rehearse', '-', '--script', '-'], 64],
    [['rehearse', 'session.txt', '--script', '-', '--phase', '60000'], 64],
    [['rehearse', 'session.txt', '--script', '-', '--phase', '-1'], 64],
    [['rehearse', 'session.txt', '--script', '-', '--phase', '1.5'], 64],
    [['rehearse', 'session.txt', '--script', '-', '--format', 'text'], 64],
    [['rehearse', 'session.txt', '--script', '-', '--fast'], 64],
    [['rehearse', 'session.txt', '--script', 'missing.jsonl'], 66],
    [['rehearse', 'missing.txt', '--script', '-'], 66],
    [['rehearse', 'session.txt', '--lanes', 'missing.txt', '--script', '-'], 66],
  ])('%j: one line, exit %i', async (argv, expected) => {
    const { status, stdout, stderr } = await lanecall(argv, folder, '');
    expect({ status, stdout }).toEqual({ status: expected, stdout: '' });
    expect(stderr).toMatch(/^[^\n]+\n$/);
  });
});
