import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { run } from '../../../app/cli/main.ts';
import { readCalendar } from '../../support/formats/calendar-reader.ts';
import { lanecall as runIn, type Outcome } from '../../support/system/command-line.ts';
import { readCsv } from '../../support/formats/csv-reader.ts';

const folder = mkdtempSync(join(tmpdir(), 'lanecall-timetable-'));
afterAll(() => rmSync(folder, { recursive: true }));

const EVENING = 'Evening\nstart 19:30\nfinish 20:30\n\nMain set\n2 x 100 @ 1:40\n300 easy\n';
writeFileSync(join(folder, 'evening.txt'), EVENING);
writeFileSync(join(folder, 'faulty.txt'), '4 x 50 @ 1.30\n4 x 50 @ 1:00\n5 x 10000000 @ 1:00\n');
writeFileSync(join(folder, 'lanes.txt'), 'lane 1 base 1:30\nlane 4 base 2:00, 3 swimmers\n');
writeFileSync(join(folder, 'bad-lanes.txt'), 'lane 1 base 1:30\nstart 19:30\n');

function timetable(...args: readonly string[]): Promise<Outcome> {
  return runIn(['timetable', ...args], folder);
}

describe('results', () => {
  test('text is the default', async () => {
    const { status, stdout, stderr } = await timetable('evening.txt');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toContain('Evening');
    expect(stdout).toBe((await timetable('evening.txt', '--format', 'text')).stdout);
  });

  test('json has the shape that programs rely on', async () => {
    const { status, stdout } = await timetable('evening.txt', '--format', 'json', '--lanes', 'lanes.txt');
    expect(status).toBe(0);
    const json: unknown = JSON.parse(stdout);
    expect(json).toMatchObject({
      title: 'Evening',
      pool: { length: 25, unit: 'm' },
      startsAt: '19:30',
      finishBy: '20:30',
      durationMs: 200_000 + 365_000 + 10_000,
      overMs: 0,
      stretches: [
        { part: 'Main set', partIndex: 0, kind: 'swim', words: '', waits: 'call', startMs: 0, durationMs: 575_000 },
      ],
      lanes: [
        { lane: 1, swimmers: 1, gapMs: 5000, baseMs: 90_000, cssMs: null, distance: 500 },
        { lane: 4, swimmers: 3, gapMs: 5000, baseMs: 120_000, cssMs: null, distance: 500 },
      ],
      warnings: [{ code: 'cannot-make', line: 6, lane: 4 }],
    });
    expect((json as { lanes: { leaves: unknown[] }[] }).lanes[1]!.leaves).toEqual([
      leave({ rep: 1, of: 2, atMs: 0 }),
      leave({ rep: 2, of: 2, atMs: 100_000 }),
      leave({
        line: 7,
        words: 'easy',
        distance: 300,
        atMs: 200_000,
        intervalMs: 365_000,
        estimated: true,
        untimed: true,
      }),
    ]);
  });

  test('csv and ics can be read back', async () => {
    const csv = await timetable('evening.txt', '--format', 'csv');
    expect(readCsv(csv.stdout)).toHaveLength(4);
    const ics = await timetable('evening.txt', '--format', 'ics', '--date', '2026-03-05');
    expect(readCalendar(Buffer.from(ics.stdout)).map(({ start }) => start)).toEqual(['20260305T193000']);
    expect([csv.status, ics.status, csv.stderr, ics.stderr]).toEqual([0, 0, '', '']);
  });

  test('a dash is standard input, and names the file in faults', async () => {
    const good = await runIn(['timetable', '-'], folder, EVENING);
    expect(good.stdout).toBe((await timetable('evening.txt')).stdout);
    const bad = await runIn(['timetable', '-'], folder, '4 x 50 @ 1.30\n');
    expect(bad).toMatchObject({ status: 2, stdout: '' });
    expect(bad.stderr).toMatch(/^-:1:10: .+\n$/);
  });

  test('warnings do not change the exit status', async () => {
    const { status, stdout } = await runIn(['timetable', '-'], folder, '4 x 100 @ 0:30\n');
    expect(status).toBe(0);
    expect(stdout).toContain('Lane 1 cannot make 100 m on 0:30');
  });

  test('without a title a session is called Session, without times it has none', async () => {
    const { stdout } = await runIn(['timetable', '-', '--format', 'json'], folder, '4 x 100 @ 1:30\n');
    expect(JSON.parse(stdout)).toMatchObject({ title: 'Session', startsAt: null, finishBy: null, overMs: null });
  });
});

describe('faults', () => {
  test('every faulty line at once on standard error, no half result, exit 2', async () => {
    const { status, stdout, stderr } = await timetable('faulty.txt');
    expect([status, stdout]).toEqual([2, '']);
    expect(
      stderr
        .trimEnd()
        .split('\n')
        .map((line) => line.replace(/: .*/, '')),
    ).toEqual(['faulty.txt:1:10', 'faulty.txt:3:5']);
  });

  test('with json also as an object of errors', async () => {
    const { status, stdout, stderr } = await timetable('faulty.txt', '--format', 'json');
    const { errors } = JSON.parse(stdout) as { errors: { line: number; column: number; message: string }[] };
    expect(status).toBe(2);
    expect(
      errors.map(({ line, column, message }) => `faulty.txt:${line}:${column}: ${message}`).join('\n') + '\n',
    ).toBe(stderr);
  });

  test('those of the lanes file name the lanes file', async () => {
    const { status, stderr } = await timetable('evening.txt', '--lanes', 'bad-lanes.txt');
    expect(status).toBe(2);
    expect(stderr).toMatch(/^bad-lanes\.txt:2:1: .+\n$/);
  });

  test('bytes that are not UTF-8 are a fault with their place', async () => {
    const bytes = Uint8Array.from([
      ...Buffer.from('4 x 50 @ 1:00\n# '),
      0xff,
      ...Buffer.from('\n8 x 50 @ 1.30\n4 x '),
      0xfe,
    ]);
    const { status, stdout, stderr } = await runIn(['timetable', '-'], folder, bytes);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^-:2:3: .*UTF-8.*\n-:3:10: 1\.30 is not a time.*\n-:4:5: .*UTF-8.*\n$/);
  });

  test('a calendar of a session without a start is a fault of the session', async () => {
    const { status, stdout, stderr } = await runIn(
      ['timetable', '-', '--format', 'ics', '--date', '2026-03-05'],
      folder,
      '4 x 50 @ 1:00\n',
    );
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^-:1:1: a calendar needs the time .+\n$/);
  });
});

test.each([
  ['a session that is not there', ['none.txt'], 'none.txt: there is no such file\n'],
  ['lanes that are not there', ['evening.txt', '--lanes', 'none.txt'], 'none.txt: there is no such file\n'],
  ['a folder', ['.', '--format', 'json'], '.: is a folder, not a file\n'],
])('%s: exit 66 with one line', async (_, args, stderr) => {
  expect(await timetable(...args)).toEqual({ status: 66, stdout: '', stderr });
});

describe('usage', () => {
  test.each([
    ['no session', []],
    ['two sessions', ['evening.txt', 'evening.txt']],
    ['an unknown option', ['evening.txt', '--colour']],
    ['a short option', ['evening.txt', '-f', 'json']],
    ['an option without its value', ['evening.txt', '--format']],
    ['an option where a value should stand', ['evening.txt', '--lanes', '--format', 'json']],
    ['an empty value', ['evening.txt', '--lanes=']],
    ['a value for --help', ['--help=yes']],
    ['an unknown format', ['evening.txt', '--format', 'pdf']],
    ['both texts on standard input', ['-', '--lanes', '-']],
    ['a calendar without its day', ['evening.txt', '--format', 'ics']],
    ['a day that is none', ['evening.txt', '--format', 'ics', '--date', '2026-02-30']],
  ])('%s: exit 64 with one line, nothing else', async (_, args) => {
    const { status, stdout, stderr } = await timetable(...args);
    expect([status, stdout]).toEqual([64, '']);
    expect(stderr).toMatch(/^lanecall timetable: .+\n$/);
  });

  test('no command and an unknown command: exit 64', async () => {
    for (const argv of [[], ['swim'], ['--version']]) {
      const { status, stdout, stderr } = await runIn(argv, folder);
      expect([status, stdout]).toEqual([64, '']);
      expect(stderr).toMatch(/^lanecall: .+\n$/);
    }
  });

  test('--help is a result, for all commands and for one', async () => {
    const all = await runIn(['--help'], folder);
    const one = await timetable('--help');
    expect([all.status, all.stderr, one.status, one.stderr]).toEqual([0, '', 0, '']);
    for (const command of ['timetable', 'rehearse', 'serve']) expect(all.stdout).toContain(`lanecall ${command}`);
    expect(one.stdout).not.toContain('lanecall serve');
  });

  test('a file whose name begins with a dash can be given after --', async () => {
    writeFileSync(join(folder, '-odd.txt'), EVENING);
    expect((await timetable('--', '-odd.txt')).status).toBe(0);
  });
});

test('a reader that closes the pipe early is no failure', async () => {
  const long = '500 rounds\n  20 x 50 free @ 1:00\n';
  const main = fileURLToPath(new URL('../../../app/cli/main.ts', import.meta.url));
  const child = spawn(process.execPath, ['--import', 'tsx', main, 'timetable', '-', '--format', 'json']);
  let complaints = '';
  child.stderr.on('data', (chunk: Buffer) => (complaints += chunk.toString()));
  child.stdout.once('data', () => child.stdout.destroy());
  child.stdin.end(long);
  const status = await new Promise((resolve) => child.on('close', resolve));
  expect([status, complaints]).toEqual([0, '']);
});

test('a stream that fails otherwise is said in one line, exit 1', async () => {
  const { Writable } = await import('node:stream');
  let complaints = '';
  const stdout = new Writable({ write: (_chunk, _encoding, done) => done(new Error('the disk is full')) });
  const stderr = new Writable({
    write(chunk: Buffer, _encoding, done) {
      complaints += chunk.toString();
      done();
    },
  });
  async function* stdin(): AsyncGenerator<Uint8Array> {
    yield Buffer.from(EVENING);
  }
  expect(await run(['timetable', '-'], { stdin: stdin(), stdout, stderr, cwd: folder })).toBe(1);
  expect(complaints).toBe('lanecall timetable: the disk is full\n');
});

function leave(given: Record<string, unknown>): Record<string, unknown> {
  return {
    stretch: 0,
    part: 'Main set',
    line: 6,
    rounds: [],
    rep: 1,
    of: 1,
    distance: 100,
    words: '',
    intervalMs: 100_000,
    targetMs: null,
    estimated: false,
    untimed: false,
    ...given,
  };
}
