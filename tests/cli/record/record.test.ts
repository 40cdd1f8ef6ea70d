/* `lanecall record`: the runs that are kept, and the record of one, without touching them. */

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { rehearsal } from '../../../app/cli/rehearse.ts';
import type { RecordJson } from '../../../app/core/record/tables/record-json.ts';
import { runsFolder } from '../../../app/host/lock/data-folder.ts';
import { lanecall } from '../../support/system/command-line.ts';
import { planOf } from '../../support/run/deck.ts';
import { eveningScript, eveningText } from '../../support/run/eventful-evening.ts';
import { recordedCommands, recordedLeaves } from '../../support/run/recorded.ts';
import { readCsv } from '../../support/formats/csv-reader.ts';
import { freshDataFolder, removeDataFolders } from '../../support/host/folders/data-folder.ts';
import { DONE, journalLines, said, THURSDAY, writeJournal } from '../../support/host/folders/written-journal.ts';

process.env['TZ'] = 'UTC';

const DAY = 24 * 60 * 60 * 1000;

const TEXT = 'Squad, =1+1\nlane 1\n\nMain set\n4 x 50 @ 1:00\n';

afterAll(removeDataFolders);

/** Everything in a folder, to see that it is as it was. */
function bytesIn(folder: string): Readonly<Record<string, string>> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    names.map(({ parentPath, name }) => [name, readFileSync(join(parentPath, name), 'latin1')]),
  );
}

function eveningIn(data: string): void {
  writeJournal(data, { run: 'evening', text: eveningText() }, [...said(eveningScript()), DONE]);
}

describe('[record] without a run', () => {
  const data = freshDataFolder();
  eveningIn(data);
  const start = said([{ atMs: 0, fields: { do: 'start' } }]);
  const closed = (why: 'left' | 'replaced' | 'unattended' | 'not begun') =>
    ({ say: 'closed', at: 90_000, why }) as const;
  writeJournal(data, { run: 'given-up', text: TEXT, openedAt: THURSDAY + DAY }, [...start, closed('left')]);
  writeJournal(data, { run: 'old', text: TEXT, openedAt: THURSDAY - DAY, journal: 1 }, [...start, closed('replaced')]);
  writeJournal(data, { run: 'alone', text: TEXT, openedAt: THURSDAY - 2 * DAY }, [
    ...start,
    closed('unattended'),
    { ...closed('unattended'), told: true },
  ]);
  writeJournal(data, { run: 'now', text: '4 x 50 @ 1:00\n', openedAt: THURSDAY + 2 * DAY }, start, '{"say":"comm');
  writeJournal(data, { run: 'never', text: TEXT, openedAt: THURSDAY + 3 * DAY }, [closed('not begun')]);

  test('a line a run, newest first: id, date, title, how it ended; what nobody began is none', async () => {
    const { status, stdout, stderr } = await lanecall(['record', '--data', data], '/');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout.split('\n').map((line) => line.split(/ {2,}/))).toEqual([
      ['now', '2026-11-28 19:30', 'Session', 'not ended'],
      ['given-up', '2026-11-27 19:30', 'Squad, =1+1', 'given up'],
      ['evening', '2026-11-26 19:30', 'Harbour squad, an eventful Thursday', 'done'],
      ['old', '2026-11-25 19:30', 'Squad, =1+1', 'replaced by another run'],
      ['alone', '2026-11-24 19:30', 'Squad, =1+1', 'left unattended'],
      [''],
    ]);
  });

  test('[JSON] a list of run, title, openedAt and ended', async () => {
    const { stdout } = await lanecall(['record', '--data', data, '--format', 'json'], '/');
    const list = JSON.parse(stdout) as unknown[];
    expect(list.slice(0, 3)).toEqual([
      { run: 'now', title: 'Session', openedAt: '2026-11-28T19:30:00', ended: 'going' },
      { run: 'given-up', title: 'Squad, =1+1', openedAt: '2026-11-27T19:30:00', ended: 'left' },
      { run: 'evening', title: 'Harbour squad, an eventful Thursday', openedAt: '2026-11-26T19:30:00', ended: 'done' },
    ]);
    expect(list.slice(3)).toMatchObject([{ ended: 'replaced' }, { ended: 'unattended' }]);
  });

  test('[RFC 4180] a table of them', async () => {
    const { stdout } = await lanecall(['record', '--data', data, '--format', 'csv'], '/');
    const [head, first, ...more] = readCsv(stdout);
    expect([head, first, more.length]).toEqual([
      ['run', 'opened at', 'title', 'ended'],
      ['now', '2026-11-28T19:30:00', 'Session', 'going'],
      4,
    ]);
  });

  test('nothing in the folder is written, not even where a host holds it', async () => {
    writeFileSync(join(data, 'host.lock'), '{"pid":1,"beat":"00000001"}');
    const before = bytesIn(data);
    for (const args of [[], ['now'], ['evening']]) {
      expect((await lanecall(['record', ...args, '--data', data], '/')).status).toBe(0);
    }
    expect(bytesIn(data)).toEqual(before);
  });
});

describe('[record] with a run', () => {
  const data = freshDataFolder();
  eveningIn(data);
  const json = async (run: string): Promise<RecordJson> => {
    const { status, stdout } = await lanecall(['record', run, '--data', data, '--format', 'json'], '/');
    expect(status).toBe(0);
    return JSON.parse(stdout) as RecordJson;
  };

  test('[eventful evening] every command of the script and every leave of its rehearsal', async () => {
    const record = await json('evening');
    expect(record).toMatchObject({ run: 'evening', openedAt: '2026-11-26T19:30:00', ended: 'done' });
    expect(recordedCommands(record)).toEqual(eveningScript().map(({ atMs, fields }) => ({ atMs, ...fields })));
    expect(recordedLeaves(record)).toEqual(rehearsal(planOf(eveningText()), 0, eveningScript()).leaves);
    expect(record.lanes.every(({ leaves: own }) => own.every(({ called }) => called))).toBe(true);
  });

  test('[text] 80 columns at most: lanes, parts, what the coach did, and marks, by the time of day', async () => {
    const { stdout } = await lanecall(['record', 'evening', '--data', data], '/');
    const lines = stdout.split('\n');
    expect(Math.max(...lines.map((line) => [...line].length))).toBeLessThanOrEqual(80);
    expect(lines[0]).toMatch(/^Harbour squad, an eventful Thursday +Thursday 26 November 2026$/);
    expect(lines[1]).toBe('opened 19:30, until 20:28, 58:50 in all: done');
    expect(stdout).toMatch(/^ {5}1 +2200 m +1825 m +29 of 35 +19:31:05 +20:27:35$/m);
    expect(stdout).toMatch(/^ {2}Turns +planned 9:50, took 11:00$/m);
    expect(stdout).toContain('19:43:28  The talk ends 5 s later.');
    expect(stdout).toContain('19:35:43  Resumed lane 4: next leave 19:35:55 (4:50).');
    expect(stdout).toContain('19:56:39  Undone: Move on\n');
    expect(stdout).toContain('20:05:50  Cut 1 of 3 rounds, ends 6:30 sooner.');
    expect(stdout).toContain('19:47:56  cramp, lane 3');
    expect(stdout).toContain('20:01:10  fire alarm');
  });

  test('[RFC 4180] a row for each leave and each command', async () => {
    const { stdout } = await lanecall(['record', 'evening', '--data', data, '--format', 'csv'], '/');
    expect(readCsv(stdout).filter(([what]) => what === 'leave')).toHaveLength(
      (await json('evening')).lanes.reduce((sum, { leaves }) => sum + leaves.length, 0),
    );
  });

  test('one that goes on is recorded up to the last sign of life; half a line behind it is left alone', async () => {
    const start = said([{ atMs: 0, fields: { do: 'start' } }]);
    const sign = { say: 'alive', at: 75_000, leaves: [[1, 70_000]] } as const;
    const path = writeJournal(data, { run: 'going', text: TEXT }, [...start, sign], '{"say":"comm');
    const before = readFileSync(path);
    const { stderr } = await lanecall(['record', 'going', '--data', data], '/');
    expect(stderr).toBe('');
    expect(await json('going')).toMatchObject({ ended: 'going', durationMs: 75_000, lanes: [{ distance: 100 }] });
    expect(readFileSync(path)).toEqual(before);
  });

  test('leaves that fell due while nobody was there were not called', async () => {
    const start = said([{ atMs: 0, fields: { do: 'start' } }]);
    writeJournal(data, { run: 'back', text: TEXT }, [
      ...start,
      { say: 'alive', at: 65_000, leaves: [[1, 10_000]] },
      { say: 'back', at: 140_000.5, by: 'monotonic' },
      { say: 'closed', at: 150_000, why: 'left' },
    ]);
    writeJournal(data, { run: 'nobody', text: TEXT }, [
      ...start,
      { say: 'alive', at: 75_000, leaves: [[1, 10_000]] },
      { say: 'closed', at: 9_000_000, why: 'unattended' },
    ]);
    const called = async (run: string): Promise<unknown> =>
      (await json(run)).lanes[0]!.leaves.map((leave) => [leave.atMs / 1000, leave.called]);
    expect(await called('back')).toEqual([
      [10, true],
      [70, false],
      [130, false],
    ]);
    expect(await called('nobody')).toEqual([
      [10, true],
      [70, true],
      [130, false],
      [190, false],
    ]);
    const { stdout } = await lanecall(['record', 'back', '--data', data], '/');
    expect(stdout).toContain('lane 1: 50, reps 2 and 3');
    expect(stdout).toMatch(/What happened ─+\n.*Started.*\n(.*\n)?.*Lanecall was not running for 1:15/);
  });

  test('one that is damaged is recorded up to the damage, and says so', async () => {
    const lines = journalLines({ run: 'hurt', text: TEXT }, [...said([{ atMs: 0, fields: { do: 'start' } }]), DONE]);
    writeFileSync(
      join(runsFolder(data), 'hurt.jsonl'),
      [lines[0], lines[1]!.replace('start', 'stxrt'), lines[2]].join(''),
    );
    const { status, stderr } = await lanecall(['record', 'hurt', '--data', data], '/');
    expect([status, stderr]).toEqual([
      0,
      'The record hurt.jsonl can be used up to line 1: what stands behind that is left out.\n',
    ]);
  });
});

describe('[record] what cannot be read', () => {
  const data = freshDataFolder();
  const newer = writeJournal(data, { run: 'later', text: TEXT, journal: 3 }, [DONE]);

  test('a run that is not there: 66 with one line', async () => {
    const { status, stdout, stderr } = await lanecall(['record', 'nowhere', '--data', data], '/');
    expect([status, stdout, stderr]).toEqual([
      66,
      '',
      `There is no run nowhere in ${data}: lanecall record lists those that are.\n`,
    ]);
  });

  test('a journal of a newer version is left as it is, with a sentence; the others are listed', async () => {
    const before = readFileSync(newer);
    const all = await lanecall(['record', '--data', data, '--format', 'json'], '/');
    expect([all.status, all.stdout]).toEqual([0, '[]\n']);
    expect(all.stderr).toMatch(/was written by a newer Lanecall \(form 3\): it is left as it is\./);
    const one = await lanecall(['record', 'later', '--data', data], '/');
    expect([one.status, one.stdout, one.stderr]).toEqual([66, '', all.stderr]);
    expect(readFileSync(newer)).toEqual(before);
  });

  test('a folder that is not there, or is none: 66 with one line', async () => {
    for (const folder of [join(data, 'nowhere'), newer]) {
      const { status, stdout, stderr } = await lanecall(['record', '--data', folder], '/');
      expect([status, stdout, stderr.split('\n').length]).toEqual([66, '', 2]);
      expect(stderr).toMatch(/folder/);
    }
  });

  test('something that is no journal among them does no harm', async () => {
    const odd = freshDataFolder();
    mkdirSync(join(runsFolder(odd), 'folder.jsonl'), { recursive: true });
    writeFileSync(join(runsFolder(odd), 'empty.jsonl'), '');
    writeFileSync(join(runsFolder(odd), 'x.jsonl.torn'), 'torn');
    eveningIn(odd);
    const { status, stdout, stderr } = await lanecall(['record', '--data', odd], '/');
    expect([status, stdout.split('\n').length, stderr.trim().split('\n').length]).toEqual([0, 2, 2]);
  });
});

describe('[record] usage', () => {
  test('--help: 0', async () => {
    const { status, stdout } = await lanecall(['record', '--help'], '/');
    expect([status, stdout]).toEqual([0, expect.stringContaining('lanecall record [RUN] [--data DIR]')]);
  });

  test.each([
    [['a', 'b'], 'takes one run at most, not 2'],
    [['--format', 'ics'], '--format needs one of text, json, csv'],
    [['--lanes', 'x'], 'there is no option --lanes'],
    [['--data'], '--data needs a value'],
  ])('%j: 64 with one line', async (args, why) => {
    const { status, stdout, stderr } = await lanecall(['record', ...args], '/');
    expect([status, stdout, stderr]).toEqual([64, '', `lanecall record: ${why} (see lanecall record --help)\n`]);
  });
});
