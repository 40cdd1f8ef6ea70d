/*
 * Deleting is real: the bytes are gone from the data folder, and whatever cuts it off, it is gone on with. The disk is one
 * in memory on which the program can be killed before each change.
 */

import { beforeEach, describe, expect, test } from 'vitest';
import { NOTHING_ADDED } from '../../../../app/core/record/afterwards.ts';
import { Library } from '../../../../app/host/library/library.ts';
import { finishDeletion } from '../../../../app/host/records/deletion/deletion.ts';
import type { Records } from '../../../../app/host/records/records.ts';
import type { RecordsRequest } from '../../../../app/wire/records/records.ts';
import { FreeFolder } from '../../../support/system/free-folder.ts';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';
import { given, recordsOn } from '../../../support/host/folders/records-folder.ts';
import { DONE, journalLines, said } from '../../../support/host/folders/written-journal.ts';

const NAME = 'Zorabel';
const TEXT = `Harbour squad\nlane 1 ${NAME}, Bram\n\nMain set\n4 x 50 fast @ 1:00\n`;
const LINES = [
  ...said([
    { atMs: 0, fields: { do: 'start' } },
    { atMs: 5000, fields: { do: 'mark', words: `${NAME}: cramp` } },
    { atMs: 6000, fields: { do: 'rewrite', text: TEXT.replace('4 x 50', `4 x 50 ${NAME} leads`) } },
  ]),
  DONE,
];
const LIST = { do: 'list', find: '', from: null, to: null, most: 100 } as const;

const DELETE_RUN = { do: 'delete-run', run: 'one' } as const;
const DELETE_NAME = { do: 'delete-name', name: NAME } as const;
const DELETE_EVERYTHING = { do: 'delete-everything' } as const;

let disk: FakeDisk;
let records: Records;

const put = (path: string, text: string): void => disk.put(`/data/${path}`, Buffer.from(text));

/** Two runs with all that may stand beside them, and texts in every folder; the name is in most. */
async function fill(): Promise<void> {
  disk = new FakeDisk();
  records = recordsOn(disk);
  for (const run of ['one', 'two']) {
    put(`runs/${run}.jsonl`, journalLines({ run, text: TEXT }, LINES).join(''));
    const added = {
      ...NOTHING_ADDED,
      marks: [{ command: 1, words: `${NAME}'s left calf` }],
      notes: [`${NAME} was tired`],
      attendance: [{ lane: 1, swimmers: 2, names: [NAME, 'Bram'] }],
    };
    await given<'keep'>(records, { do: 'keep', run, version: null, added });
    put(`runs/${run}.jsonl.torn`, `{"text":"Squad\\n${NAME}`);
    put(`runs/${run}.jsonl.2.torn`, 'nothing to see');
    put(`runs/${run}.after.json.new`, `{"notes":["${NAME}`);
  }
  put('runs/lost.jsonl.torn', `${NAME}`);
  for (const folder of ['sessions', 'pieces']) put(`${folder}/${NAME} 200s.txt`, TEXT);
  put('bin/sessions/2026-11-26T180000.000Z Thursday.txt', TEXT);
  put('bin/pieces/2026-11-26T180000.000Z plain.txt', 'Set\n4 x 50 @ 1:00\n');
  put('library.json', JSON.stringify({ lastUsed: { [`${NAME} 200s`]: '2026-11-26T18:00:00.000Z' } }));
  put('squads.json', JSON.stringify({ squads: [{ name: 'A', lanes: [{ names: [NAME, 'Bram'] }, `lane 2 ${NAME}`] }] }));
  put('squads.json.aside-1', `${NAME} and not ours`);
  put('screens.json', '{"version":1,"screens":[]}');
  await given<'list'>(records, LIST);
}

beforeEach(fill);

const filesOf = (run: string): readonly string[] => [...disk.files.keys()].filter((path) => path.includes(`/${run}.`));

/** Names of files and all bytes. */
function everything(): string {
  return [...disk.files].map(([path, bytes]) => `${path}\n${Buffer.from(bytes).toString('latin1')}`).join('\n');
}

const runsLeft = async (): Promise<readonly string[]> =>
  (await given<'list'>(records, LIST)).runs.map(({ run }) => run);

describe('[delete] a run', () => {
  test('removes its journal and all that is kept beside it; another run is unchanged', async () => {
    const before = filesOf('two').map((path) => [path, disk.text(path)]);
    expect(filesOf('one')).toHaveLength(6);
    await given<'delete-run'>(records, DELETE_RUN);
    expect(filesOf('one')).toEqual([]);
    expect(filesOf('two').map((path) => [path, disk.text(path)])).toEqual(before);
    expect(await runsLeft()).toEqual(['two']);
    expect(disk.files.has('/data/deleting.json')).toBe(false);
  });

  test('leaves a run whose name begins with the same letters', async () => {
    put('runs/one.b.jsonl', journalLines({ run: 'other', text: TEXT }, LINES).join(''));
    put('runs/one.b.after.json', JSON.stringify({ version: 1, run: 'other', ...NOTHING_ADDED }));
    await given<'delete-run'>(records, DELETE_RUN);
    expect(filesOf('one')).toEqual(['jsonl', 'after.json', 'summary.json'].map((end) => `/data/runs/one.b.${end}`));
  });

  test('that does not exist is refused, and nothing happens', async () => {
    const before = everything();
    expect(await records.ask({ do: 'delete-run', run: '../sessions/x' })).toEqual({
      ok: false,
      why: 'This run is not there any more: it was deleted or moved elsewhere.',
    });
    expect(everything()).toBe(before);
  });
});

describe('[delete] one that was never started', () => {
  test('goes by its name; one that was started, or is not there, is refused', async () => {
    put('runs/opened.jsonl', journalLines({ run: 'opened', text: TEXT }, []).join(''));
    const { runs } = await given<'never-started'>(records, { do: 'never-started' });
    expect(runs).toMatchObject([{ name: 'opened', title: 'Harbour squad' }]);
    for (const only of ['one', '../sessions/x'])
      expect(await records.ask({ do: 'delete-never-started', only })).toMatchObject({ ok: false });
    expect(filesOf('one')).toHaveLength(6);
    await given<'delete-never-started'>(records, { do: 'delete-never-started', only: 'opened' });
    expect(filesOf('opened')).toEqual([]);
    expect((await given<'never-started'>(records, { do: 'never-started' })).runs).toEqual([]);
  });
});

describe('[delete] all that were never started', () => {
  const ALL = { do: 'delete-never-started', only: null } as const;
  const putOpened = (file: string, run = file, journal = 2): void =>
    put(`runs/${file}.jsonl`, journalLines({ run, text: TEXT, journal }, []).join(''));

  test('go at once; runs stay, and so does what a newer program wrote', async () => {
    disk.refuses = 'EROFS';
    expect(await given<'delete-never-started'>(records, ALL)).toEqual({ ok: true, runs: 0, texts: 0, left: [] });
    disk.refuses = null;
    for (const run of ['opened', 'again']) putOpened(run);
    putOpened('newer', 'newer', 99);
    expect(await given<'delete-never-started'>(records, ALL)).toMatchObject({ runs: 2, left: [] });
    expect(['opened', 'again', 'newer'].map((run) => filesOf(run).length)).toEqual([0, 0, 1]);
    expect(await runsLeft()).toEqual(['two', 'one']);
  });

  test('leave out the one that is open now, by the run in it and by its file’s name', async () => {
    putOpened('opened');
    putOpened('2026-11-26T193000Z-now', 'now');
    putOpened('other-name', 'now');
    // Closed before it was begun, as by a program that was killed while it opened it.
    const lines = journalLines({ run: 'now', text: TEXT }, [{ say: 'closed', at: 1000, why: 'not begun' }]);
    put('runs/2026-11-26T193001Z-now.jsonl', lines.join(''));
    records = recordsOn(disk, { opened: { id: () => 'now', letGo: () => Promise.resolve(false) } });
    const { runs } = await given<'never-started'>(records, { do: 'never-started' });
    expect(runs.map(({ name }) => name)).toEqual(['opened']);
    expect(await given<'delete-never-started'>(records, ALL)).toMatchObject({ runs: 1 });
    expect(filesOf('2026-11-26T193001Z-now')).toHaveLength(2);
  });
});

describe('[delete] a name', () => {
  test('leaves it in no byte and no file name, and every run as it was', async () => {
    const before = await given<'review'>(records, { do: 'review', run: 'one' });
    const deleted = await given<'delete-name'>(records, { do: 'delete-name', name: ` ${NAME.toLowerCase()} ` });
    expect(deleted).toMatchObject({ runs: 2, texts: 3, left: [] });
    expect(everything()).not.toMatch(new RegExp(NAME, 'i'));
    const after = await given<'review'>(records, { do: 'review', run: 'one' });
    const leaves = ({ record }: typeof before) =>
      record.lanes.map((lane) => lane.leaves.map(({ atMs, rep }) => [atMs, rep]));
    expect(leaves(after)).toEqual(leaves(before));
    expect(after.record.lanes[0]).toMatchObject({ swimmers: 2, names: ['one', 'Bram'] });
    expect(after.record.attendance).toEqual([{ lane: 1, swimmers: 2, names: ['Bram'] }]);
    expect(after.record.notes).toEqual(['somebody was tired']);
    expect(after.record.commands[1]).toMatchObject({ words: 'somebody: cramp', added: "somebody's left calf" });
    expect(await runsLeft()).toEqual(['two', 'one']);
    expect(JSON.parse(disk.text('/data/squads.json'))).toEqual({
      squads: [{ name: 'A', lanes: [{ names: ['somebody', 'Bram'] }, 'lane 2 one'] }],
    });
  });

  test('tells the library the new file names, so that it does not write the old ones again', async () => {
    const library = new Library({ disk, folder: '/data', wall: () => 0 });
    const list = async () => library.ask<'list'>({ do: 'list', find: '', most: 10 });
    await library.ask<'read'>({ do: 'read', kind: 'session', name: `${NAME} 200s` });
    expect(await list()).toMatchObject({ sessions: [{ name: `${NAME} 200s` }] });
    records = recordsOn(disk, { library });
    await given<'delete-name'>(records, DELETE_NAME);
    expect(await list()).toMatchObject({ sessions: [{ name: 'somebody 200s' }] });
    await library.ask<'rename'>({ do: 'rename', kind: 'session', name: 'somebody 200s', to: 'Sprints' });
    expect(everything()).not.toContain(NAME);
  });

  test('leaves what a newer program wrote, and says so', async () => {
    put('runs/three.jsonl', journalLines({ run: 'three', text: TEXT, journal: 3 }, LINES).join(''));
    put('runs/two.after.json', JSON.stringify({ version: 99, notes: [NAME] }));
    const left = ['/data/runs/three.jsonl', '/data/runs/two.after.json'].map((path) => disk.files.get(path));
    disk.put(`/data/sessions/${NAME}.txt`, Uint8Array.from([0xff]));
    const deleted = await given<'delete-name'>(records, DELETE_NAME);
    // What is left is not counted.
    expect(deleted).toMatchObject({ runs: 2, texts: 3, left: { length: 3 } });
    expect(deleted.left.at(-1)).toMatch(/is no plain text: it is left as it is/);
    for (const sentence of deleted.left.slice(0, 2))
      expect(sentence).toMatch(/is of a newer Lanecall and left as it is/);
    expect(['/data/runs/three.jsonl', '/data/runs/two.after.json'].map((path) => disk.files.get(path))).toEqual(left);
  });

  test.each(['12', ' - '])('%j is none: refused, and nothing happens', async (name) => {
    const before = everything();
    expect(await records.ask({ do: 'delete-name', name })).toMatchObject({ ok: false });
    expect(everything()).toBe(before);
  });
});

describe('[delete] everything', () => {
  test('removes runs, sessions, parts, the bin and squads; the settings of screens stay', async () => {
    put('sessions/notes.doc', 'not ours');
    put('sessions/x.txt.new', 'cut off');
    put('sessions/Y.TXT', 'in capitals');
    put('sessions/Y.TXT.new', 'cut off');
    const deleted = await given<'delete-everything'>(records, DELETE_EVERYTHING);
    expect(deleted).toMatchObject({ runs: 2, texts: 7, left: [] });
    expect([...disk.files.keys()]).toEqual(['/data/screens.json', '/data/sessions/notes.doc']);
    expect(await runsLeft()).toEqual([]);
  });
});

test('[delete] journals go first, so that what stands beside one is never left as a run', async () => {
  const removed: (readonly string[])[] = [];
  const { removeAll } = disk;
  disk.removeAll = (paths) => (removed.push(paths), removeAll.call(disk, paths));
  await given<'delete-everything'>(records, DELETE_EVERYTHING);
  expect(removed[0]!.map((path) => path.endsWith('.jsonl')).lastIndexOf(true)).toBe(1);
});

describe('[delete] the run that is going', () => {
  test.each([DELETE_RUN, DELETE_NAME, DELETE_EVERYTHING])('$do is refused with a sentence', async (asked) => {
    const before = everything();
    records = recordsOn(disk, { opened: { id: () => 'one', letGo: () => Promise.resolve(false) } });
    expect(await ask(asked)).toEqual({ ok: false, why: expect.stringMatching(/still going, and nothing is deleted/) });
    expect(everything()).toBe(before);
  });

  test('another run can be deleted meanwhile', async () => {
    records = recordsOn(disk, { opened: { id: () => 'two', letGo: () => Promise.resolve(false) } });
    await given<'delete-run'>(records, DELETE_RUN);
    expect(filesOf('one')).toEqual([]);
  });
});

describe('[delete] cut off', () => {
  const gone = {
    'delete-run': () => expect(filesOf('one')).toEqual([]),
    'delete-name': () => expect(everything()).not.toMatch(new RegExp(NAME, 'i')),
    'delete-everything': () => expect([...disk.files.keys()]).toEqual(['/data/screens.json']),
  };

  test.each([DELETE_RUN, DELETE_NAME, DELETE_EVERYTHING])(
    '$do: killed before each change, nothing has happened, or the next start goes on with it',
    async (asked) => {
      const steps = await changesOf(asked);
      expect(steps).toBeGreaterThan(5);
      for (let step = 1; step <= steps; step++) {
        await fill();
        const before = everything();
        await killedBefore(step, asked);
        if (!disk.files.has('/data/deleting.json')) {
          expect(everything(), `step ${step}`).toBe(before);
          continue;
        }
        expect(await finishDeletion({ disk, data: '/data', guard: new FreeFolder() })).toBeNull();
        gone[asked.do]();
        expect(disk.files.has('/data/deleting.json'), `step ${step}`).toBe(false);
        records = recordsOn(disk);
        expect((await given<'list'>(records, LIST)).said).toEqual([]);
      }
    },
  );

  test.each([DELETE_RUN, DELETE_NAME, DELETE_EVERYTHING])(
    '$do: where the disk refuses halfway it is said, at each look, until the disk takes it',
    async (asked) => {
      refusesAfter(3);
      const why = expect.stringMatching(/in part still there \(the disk is failing\)/);
      expect(await ask(asked)).toEqual({ ok: false, why });
      expect((await given<'list'>(records, LIST)).said).toEqual([why]);
      disk.refuses = null;
      disk.beforeChange = () => undefined;
      expect((await given<'list'>(records, LIST)).said).toEqual([]);
      gone[asked.do]();
    },
  );

  test('a deletion does not go on in a folder that another host has taken', async () => {
    const guard = new FreeFolder();
    guard.taken = true;
    records = recordsOn(disk, { guard });
    const before = everything();
    expect(await ask(DELETE_EVERYTHING)).toMatchObject({ ok: false });
    expect(everything()).toBe(before);
  });

  test.each(['', '{"version":1}', '{"version":1,"delete":{"what":"runs","stems":["../sessions/x"]}}', '{"version":2}'])(
    'what is to be deleted cannot be told from %s: it is left and said, and nothing is deleted',
    async (text) => {
      put('deleting.json', text);
      const before = everything();
      expect(await finishDeletion({ disk, data: '/data', guard: new FreeFolder() })).toMatch(/deleting\.json/);
      expect(everything()).toBe(before);
    },
  );
});

function ask(asked: Extract<RecordsRequest, { do: `delete-${string}` }>): Promise<unknown> {
  return records.ask(asked);
}

/** How many changes of the disk it takes. */
async function changesOf(asked: Parameters<typeof ask>[0]): Promise<number> {
  await fill();
  let changes = 0;
  disk.beforeChange = () => void changes++;
  await ask(asked);
  return changes;
}

/** The program is killed before the change of that number: what it waits for never comes. */
async function killedBefore(step: number, asked: Parameters<typeof ask>[0]): Promise<void> {
  let changes = 0;
  const killed = new Promise<void>((resolve) => {
    disk.beforeChange = () => {
      if (++changes < step) return;
      disk.beforeChange = () => undefined;
      resolve();
      throw new Killed();
    };
  });
  await Promise.all([killed, ask(asked)]);
}

class Killed extends Error {}

function refusesAfter(changes: number): void {
  let left = changes;
  disk.beforeChange = () => {
    if (left-- > 0) return;
    disk.refuses = 'EIO';
    throw Object.assign(new Error('EIO'), { code: 'EIO' });
  };
}
