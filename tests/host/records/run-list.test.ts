/* The runs of a folder, from the ends of their journals: which are listed, in which order, and what is said of the rest. */

import { mkdirSync, renameSync, symlinkSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { afterAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { runsFolder } from '../../../app/host/lock/data-folder.ts';
import { listRuns } from '../../../app/host/records/run-list.ts';
import { freshDataFolder, removeDataFolders } from '../../support/host/folders/data-folder.ts';
import { journalLines, said, THURSDAY, writeJournal } from '../../support/host/folders/written-journal.ts';

const TEXT = 'Squad\nlane 1\n\nMain set\n4 x 50 @ 1:00\n';
const START = said([{ atMs: 0, fields: { do: 'start' } }]);
const LEFT = { say: 'closed', at: 90_000, why: 'left' } as const;

let data: string;
beforeEach(() => (data = freshDataFolder()));
afterAll(removeDataFolders);

const list = () => listRuns(runsFolder(data));
const ended = async () => (await list()).runs.map((run) => run.ended);

describe('[record] the list of runs', () => {
  test('has the newest first; of two runs of one second the later file name', async () => {
    for (const [run, later] of [
      ['a', 0],
      ['c', 60_000],
      ['b', 0],
    ] as const) {
      writeJournal(data, { run, text: TEXT, openedAt: THURSDAY + later }, [...START, LEFT]);
    }
    expect((await list()).runs.map(({ run }) => run)).toEqual(['c', 'b', 'a']);
  });

  test('has each run with its file, its title and the time of its opening', async () => {
    const path = writeJournal(data, { run: 'r', text: TEXT }, [...START, LEFT]);
    expect(await list()).toEqual({
      runs: [{ path, run: 'r', title: 'Squad', openedAt: '2026-11-26T19:30:00', ended: 'left' }],
      unread: [],
    });
  });

  test('goes by when they were opened, whatever their files are called', async () => {
    const named = (run: string, minutes: number) =>
      renameSync(
        writeJournal(data, { run, text: TEXT, openedAt: THURSDAY + minutes * 60_000 }, [LEFT]),
        join(runsFolder(data), `${run}.jsonl`),
      );
    for (const [run, minutes] of [
      ['a', 2],
      ['b', 0],
      ['c', 3],
      ['d', 1],
    ] as const) {
      named(run, minutes);
    }
    expect((await list()).runs.map(({ run }) => run)).toEqual(['c', 'a', 'd', 'b']);
  });

  test('has every run of many, and gives way to everything else after each twenty', async () => {
    for (let index = 0; index < 45; index++) writeJournal(data, { run: `run-${index}`, text: TEXT }, [LEFT]);
    const turns = vi.spyOn(globalThis, 'setImmediate');
    const { runs } = await list();
    expect(turns).toHaveBeenCalledTimes(2);
    turns.mockRestore();
    expect(runs).toHaveLength(45);
  });

  test('calls a run without a title “Session”', async () => {
    writeJournal(data, { run: 'r', text: '' }, [...START, LEFT]);
    expect((await list()).runs.map(({ title }) => title)).toEqual(['Session']);
  });

  test('is empty without a folder; a folder that cannot be read is refused with the reason', async () => {
    expect(await list()).toEqual({ runs: [], unread: [] });
    writeFileSync(join(data, 'file'), '');
    await expect(listRuns(join(data, 'file'))).rejects.toMatchObject({ code: 'ENOTDIR' });
  });

  test('leaves out files that are not named as journals, and sessions that were never started', async () => {
    const path = writeJournal(data, { run: 'r', text: TEXT }, [{ say: 'closed', at: 1, why: 'not begun' }]);
    writeFileSync(`${path}.torn`, 'torn');
    writeFileSync(path.replace('.jsonl', '.after.json'), '{}');
    expect(await list()).toEqual({ runs: [], unread: [] });
  });

  test('leaves out a journal that vanishes while it is read', async () => {
    mkdirSync(runsFolder(data));
    symlinkSync(join(data, 'gone'), join(runsFolder(data), 'a.jsonl'));
    expect(await list()).toEqual({ runs: [], unread: [] });
  });
});

describe('[record] how a run ended', () => {
  test('is its last line; a run without an end is still going', async () => {
    writeJournal(data, { run: 'r', text: TEXT }, START);
    expect(await ended()).toEqual(['going']);
  });

  test('is known by the line before if the last one is half written', async () => {
    writeJournal(data, { run: 'r', text: TEXT }, [...START, LEFT], '{"say":"comm');
    expect(await ended()).toEqual(['left']);
    writeJournal(data, { run: 'r', text: TEXT }, START, '{"say":"clos');
    expect(await ended()).toEqual(['going']);
  });

  test('is not known by an end that another line follows', async () => {
    const mark = said([{ atMs: 91_000, fields: { do: 'mark' } }]);
    writeJournal(data, { run: 'r', text: TEXT }, [...START, LEFT, ...mark]);
    expect(await ended()).toEqual(['going']);
  });
});

describe('[record] a journal that cannot be listed', () => {
  const why = async () => (await list()).unread.map((each) => [basename(each.path), each.why]);

  test.each([
    ['empty', ''],
    ['of something else', 'x\n'],
    ['without its first line', journalLines({ run: 'r', text: TEXT }, START)[1]!],
    ['with half its first line', journalLines({ run: 'r', text: TEXT }, START)[0]!.slice(0, -20)],
  ])('because it is %s is reported as damaged at its first line', async (_, text) => {
    mkdirSync(runsFolder(data));
    writeFileSync(join(runsFolder(data), 'a.jsonl'), text);
    expect(await why()).toEqual([
      [
        'a.jsonl',
        'The record a.jsonl is damaged at its first line: nothing of it can be read, and it is left as it is.',
      ],
    ]);
  });

  test('because a newer program wrote it is reported as that', async () => {
    const name = basename(writeJournal(data, { run: 'r', text: TEXT, journal: 3 }, START));
    expect(await why()).toEqual([
      [
        name,
        `The record ${name} was written by a newer Lanecall (form 3): it is left as it is. ` +
          'Read it with that newer version.',
      ],
    ]);
  });

  test('because it is a folder is reported as one', async () => {
    mkdirSync(join(runsFolder(data), 'a.jsonl'), { recursive: true });
    expect(await why()).toEqual([
      [
        'a.jsonl',
        'The record a.jsonl cannot be read (it is a folder): it is left unchanged. ' +
          'Repair it and start Lanecall again, or move it out of the folder.',
      ],
    ]);
  });
});
