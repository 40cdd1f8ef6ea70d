/* The history: a summary of each closed run is worked out once, and anew whenever it is not of what is there. */

import { beforeEach, describe, expect, test, vi } from 'vitest';
import { NOTHING_ADDED } from '../../../app/core/record/afterwards.ts';
import type { Records } from '../../../app/host/records/records.ts';
import { FreeFolder } from '../../support/system/free-folder.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { given, recordsOn } from '../../support/host/folders/records-folder.ts';
import { DONE, journalLines, said, THURSDAY, type WrittenRun } from '../../support/host/folders/written-journal.ts';

process.env['TZ'] = 'UTC';

const DAY = 24 * 60 * 60 * 1000;
const TEXT =
  'Harbour squad\nlane 1 Ana, Bram\nlane 2\n\nMain set\n4 x 50 fast @ 1:00 hold 0:40\n\nSwim-down\n100 easy @ 3:00\n';
const START = said([{ atMs: 0, fields: { do: 'start' } }]);
const LIST = { do: 'list', find: '', from: null, to: null, most: 100 } as const;

let disk: FakeDisk;
let records: Records;

beforeEach(() => {
  disk = new FakeDisk();
  records = recordsOn(disk);
});

function write(run: string, lines: typeof START = [...START, DONE], more: Partial<WrittenRun> = {}): string {
  const path = `/data/runs/${run}.jsonl`;
  disk.put(path, Buffer.from(journalLines({ run, text: TEXT, ...more }, lines).join('')));
  return path;
}

const summaryOf = (run: string): string => `/data/runs/${run}.summary.json`;

const runsIn = async (
  asked: Partial<typeof LIST> | { find?: string; from?: string; to?: string; most?: number } = {},
) => (await given<'list'>(records, { ...LIST, ...asked })).runs;

describe('[history] the list', () => {
  test('has what the history draws of each run: distances by lane and in all, length, effort, load and tested paces', async () => {
    write('one');
    await given<'keep'>(records, { do: 'keep', run: 'one', version: null, added: { ...NOTHING_ADDED, effort: 5 } });
    expect(await runsIn()).toEqual([
      {
        run: 'one',
        title: 'Harbour squad',
        openedAt: '2026-11-26T19:30:00',
        ended: 'done',
        durationMs: 4_200_000,
        unit: 'm',
        plannedDistance: 600,
        distance: 400,
        lanes: [
          { lane: 1, plannedDistance: 300, distance: 200 },
          { lane: 2, plannedDistance: 300, distance: 200 },
        ],
        attendance: null,
        effort: 5,
        load: 350,
        notes: [],
        css: [],
      },
    ]);
  });

  test('has the newest first, as many as are asked for, and says how many more there are', async () => {
    for (const days of [1, 3, 2]) write(`run-${days}`, undefined, { openedAt: THURSDAY + days * DAY });
    expect((await runsIn()).map(({ run }) => run)).toEqual(['run-3', 'run-2', 'run-1']);
    const { runs, more } = await given<'list'>(records, { ...LIST, most: 1 });
    expect([runs.map(({ run }) => run), more]).toEqual([['run-3'], 2]);
  });

  test('is searched by words of title, parts, names, marks and notes, by the day, and between two days', async () => {
    write('one', [...START, ...said([{ atMs: 5000, fields: { do: 'mark', words: 'Fire ALARM' } }]), DONE]);
    write('two', undefined, { openedAt: THURSDAY + DAY, text: TEXT.replace('Harbour', 'Brücke') });
    await given<'keep'>(records, {
      do: 'keep',
      run: 'two',
      version: null,
      added: { ...NOTHING_ADDED, notes: ['calm'] },
    });
    const found = async (asked: Parameters<typeof runsIn>[0]) => (await runsIn(asked)).map(({ run }) => run);
    for (const find of ['alarm', 'harbour fire', 'thursday november', '2026-11-26'])
      expect(await found({ find })).toEqual(['one']);
    for (const find of ['CALM', 'brucke', 'friday 27']) expect(await found({ find }), find).toEqual(['two']);
    expect(await found({ find: 'bram main' })).toEqual(['two', 'one']);
    expect(await found({ find: 'harbour calm' })).toEqual([]);
    expect(await found({ from: '2026-11-27' })).toEqual(['two']);
    expect(await found({ to: '2026-11-26' })).toEqual(['one']);
    expect(await found({ from: '2026-11-26', to: '2026-11-27' })).toEqual(['two', 'one']);
  });

  test('leaves out sessions that never started; a journal that cannot be read is reported and left', async () => {
    write('never', [{ say: 'closed', at: 1000, why: 'not begun' }]);
    const replaced = { say: 'closed', at: 1000, why: 'replaced' } as const;
    write('opened', [replaced]);
    write('marked', [...said([{ atMs: 500, fields: { do: 'mark' } }]), replaced]);
    write('taken-back', [...START, ...said([{ atMs: 500, fields: { do: 'undo' } }]), replaced]);
    const newer = write('newer', [DONE], { journal: 3 });
    const before = disk.files.get(newer);
    const { runs, said: sentences } = await given<'list'>(records, LIST);
    expect(runs).toEqual([]);
    expect(sentences).toEqual([expect.stringMatching(/newer.jsonl was written by a newer Lanecall \(form 3\)/)]);
    expect(disk.files.get(newer)).toBe(before);
  });
});

test.each([
  { do: 'never-started' },
  { do: 'delete-never-started', only: null },
  { do: 'delete-run', run: 'run-1' },
] as const)(
  '[history] while all runs are worked out for "$do", another question is answered in between',
  async (wish) => {
    for (const days of [1, 2, 3, 4]) write(`run-${days}`, undefined, { openedAt: THURSDAY + days * DAY });
    let now = 0;
    records = recordsOn(disk, { now: () => (now += 1000) });
    const answered: string[] = [];
    let toCome = 0;
    const inBetween = new Promise<void>((resolve) => {
      const { list } = disk;
      disk.list = (folder) => {
        disk.list = list;
        // The first runs are being looked at.
        void given<'list'>(records, LIST).then((listed) => {
          ({ toCome } = listed);
          answered.push('list');
          resolve();
        });
        return list.call(disk, folder);
      };
    });
    expect(await records.ask(wish)).toMatchObject({ ok: true });
    answered.push(wish.do);
    await inBetween;
    expect(toCome).toBeGreaterThan(0);
    expect(answered).toEqual(['list', wish.do]);
    expect((await given<'list'>(records, LIST)).toCome).toBe(0);
  },
);

describe('[history] a summary', () => {
  const readAgain = async (): Promise<number> => {
    records = recordsOn(disk);
    const before = disk.bytesRead;
    await runsIn();
    return disk.bytesRead - before;
  };

  test('is kept beside the journal as readable JSON, and saves reading the journal', async () => {
    const { length } = disk.files.get(write('one'))!;
    await runsIn();
    expect(JSON.parse(disk.text(summaryOf('one')))).toMatchObject({
      version: 3,
      journal: { length },
      after: null,
      run: { run: 'one', distance: 400 },
      words: ['Harbour squad', 'Main set', 'Swim-down', 'Ana', 'Bram'],
    });
    const whole = disk.bytesRead;
    expect(await readAgain()).toBe(disk.files.get(summaryOf('one'))!.length);
    const before = disk.bytesRead;
    await runsIn();
    expect([disk.bytesRead - before, whole > 0]).toEqual([0, true]);
  });

  test.each([
    ['missing', () => disk.takeAway(summaryOf('one'))],
    ['damaged', () => disk.put(summaryOf('one'), Buffer.from('{"version":3'))],
    ['not of this kind', () => disk.put(summaryOf('one'), Buffer.from('[]'))],
    ['of another version', () => changeSummary({ version: 2 })],
    ['of a journal of another length', () => changeJournal({ length: 1 })],
    ['of a journal of another time', () => changeJournal({ changed: '1' })],
    ['without what is drawn', () => changeSummary({ run: { run: 'one' } })],
  ])('that is %s is worked out again', async (_, harm) => {
    write('one');
    const before = await runsIn();
    harm();
    records = recordsOn(disk);
    expect(await runsIn()).toEqual(before);
    expect(JSON.parse(disk.text(summaryOf('one')))).toMatchObject({
      version: 3,
      run: { run: 'one', distance: 400 },
      words: ['Harbour squad', 'Main set', 'Swim-down', 'Ana', 'Bram'],
    });
  });

  const summary = (): { readonly journal: object } =>
    JSON.parse(disk.text(summaryOf('one'))) as { readonly journal: object };

  function changeSummary(change: object): void {
    disk.put(summaryOf('one'), Buffer.from(JSON.stringify({ ...summary(), ...change })));
  }

  function changeJournal(change: object): void {
    changeSummary({ journal: { ...summary().journal, ...change }, words: ['of the other'] });
  }

  test('of a session that was never started is empty, so that its journal is not read again', async () => {
    write('one', [{ say: 'closed', at: 1000, why: 'not begun' }]);
    await runsIn();
    expect(summary()).toMatchObject({ run: null, isStarted: false, words: [] });
  });

  test('is looked for in twenty runs at a time, and then everything else gets its turn', async () => {
    for (let n = 0; n < 45; n++) write(`run-${n}`);
    while ((await given<'list'>(records, LIST)).toCome > 0);
    const turns = vi.spyOn(globalThis, 'setImmediate');
    await runsIn();
    expect(turns).toHaveBeenCalledTimes(2);
    turns.mockRestore();
  });

  test('is not made of a journal that vanishes while the folder is read', async () => {
    write('one');
    disk.list = () => Promise.resolve(['gone.jsonl', 'one.jsonl']);
    expect(await runsIn()).toMatchObject([{ run: 'one' }]);
  });

  test('follows what is added afterwards, and what is written after the end', async () => {
    const path = write('one');
    await runsIn();
    const added = { ...NOTHING_ADDED, effort: 10 };
    await given<'keep'>(records, { do: 'keep', run: 'one', version: null, added });
    expect(await runsIn()).toMatchObject([{ effort: 10, load: 700 }]);
    const mark = said([{ atMs: 4_300_000, fields: { do: 'mark', words: 'late' } }]);
    disk.put(path, Buffer.from(journalLines({ run: 'one', text: TEXT }, [...START, DONE, ...mark, DONE]).join('')));
    expect(await runsIn({ find: 'late' })).toHaveLength(1);
  });

  test('of a run that is still going is not kept', async () => {
    write('one', START);
    expect(await runsIn()).toMatchObject([{ run: 'one', ended: 'going' }]);
    expect(disk.files.has(summaryOf('one'))).toBe(false);
  });

  test('is worked out all the same if the disk refuses it, or another host has the folder', async () => {
    const guard = new FreeFolder();
    guard.taken = true;
    write('one');
    records = recordsOn(disk, { guard });
    expect(await runsIn()).toHaveLength(1);
    records = recordsOn(disk);
    disk.refuses = 'EROFS';
    expect(await runsIn()).toHaveLength(1);
    expect(disk.files.has(summaryOf('one'))).toBe(false);
  });

  test('is worked out for a few runs at each look, the newest first, and the list says how many are to come', async () => {
    let time = 0;
    records = recordsOn(disk, { now: () => (time += 75) });
    for (const n of [2, 0, 5, 1, 4, 3]) write(`run-${n}`, undefined, { openedAt: THURSDAY + n * DAY });
    const first = await given<'list'>(records, LIST);
    expect(first.runs.map(({ run }) => run)).toEqual(['run-5', 'run-4']);
    expect(first.toCome).toBe(4);
    expect((await given<'list'>(records, LIST)).toCome).toBe(2);
    // One that is asked for does not wait for that.
    expect(await given<'session'>(records, { do: 'session', run: 'run-0' })).toMatchObject({ text: TEXT });
    expect((await given<'list'>(records, LIST)).toCome).toBe(0);
  });

  test('is not worked out for all runs where the one that is asked for is known', async () => {
    let time = 0;
    records = recordsOn(disk, { now: () => (time += 75) });
    for (let n = 0; n < 6; n++) write(`run-${n}`, undefined, { openedAt: THURSDAY + n * DAY });
    write('run-9', [{ say: 'closed', at: 1000, why: 'not begun' }]);
    await given<'session'>(records, { do: 'session', run: 'run-5' });
    expect((await given<'list'>(records, LIST)).toCome).toBe(3);
  });
});
