/* Where a swimmer's name stands in a data folder, and what becomes of each file that has it. */

import { beforeEach, describe, expect, test } from 'vitest';
import { NOTHING_ADDED, type Afterwards } from '../../../../app/core/record/afterwards.ts';
import { namePattern } from '../../../../app/core/session/names/name-pattern.ts';
import { AFTERWARDS_VERSION } from '../../../../app/wire/records/afterwards.ts';
import { placesOf, textFolders } from '../../../../app/host/records/deletion/name-places.ts';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';
import { DONE, journalLines } from '../../../support/host/folders/written-journal.ts';

const TEXT = 'lane 1 Ana, Bram\n\nMain set\n4 x 50 @ 1:00\n';

let disk: FakeDisk;
beforeEach(() => (disk = new FakeDisk()));

const put = (path: string, content: string | Uint8Array): void => disk.put(`/data/${path}`, Buffer.from(content));

/** What becomes of the files with Ana, their bytes as text. */
async function places(name = 'Ana') {
  const found = await placesOf(disk, '/data', namePattern(name)!);
  return found.map((place) => ({
    ...place,
    path: place.path.slice('/data/'.length),
    ...('bytes' in place ? { bytes: Buffer.from(place.bytes).toString() } : {}),
  }));
}

const afterwards = (added: Partial<Afterwards>, version = 1): string =>
  JSON.stringify({ version, run: 'r', ...NOTHING_ADDED, ...added });

/** What is left of what was added to a run. */
async function addedLeft(added: Partial<Afterwards>): Promise<Afterwards | null> {
  put('runs/r.after.json', afterwards(added));
  const [place] = await places();
  return place && 'bytes' in place ? (JSON.parse(String(place.bytes)) as Afterwards) : null;
}

test('[names] texts are in four folders', () => {
  expect(textFolders('/data')).toEqual(['/data/sessions', '/data/pieces', '/data/bin/sessions', '/data/bin/pieces']);
});

test('[names] a folder without the name has no places, whatever else it has', async () => {
  put('runs/r.jsonl', journalLines({ run: 'r', text: TEXT }, [DONE]).join(''));
  put('runs/r.after.json', afterwards({ notes: ['Ana'] }));
  put('runs/r.jsonl.torn', 'Ana');
  put('sessions/Ana.txt', TEXT);
  put('squads.json', '["Ana"]');
  put('squads.json.aside-1', 'Ana');
  put('runs/odd.after.json', 'Ana');
  expect(await places('Zoe')).toEqual([]);
  expect(await places()).toHaveLength(7);
});

test('[names] a text whose ending is in capitals has its places too, and what a broken write left of it', async () => {
  put('sessions/ANA.TXT', TEXT);
  put('sessions/KICK.TXT.new', TEXT);
  expect((await places()).map(({ path, kind, ...rest }) => [path, kind, 'to' in rest ? rest.to : null])).toEqual([
    ['sessions/ANA.TXT', 'write', expect.stringMatching(/\.txt$/)],
    ['sessions/KICK.TXT.new', 'remove', null],
  ]);
});

describe('[names] beside a run', () => {
  test('a file that is not a journal is removed if it has the name, and does not count as a run', async () => {
    put('runs/r.jsonl.torn', '"words":"x\\nAna"');
    put('runs/r.summary.json', 'nothing');
    expect(await places()).toEqual([{ path: 'runs/r.jsonl.torn', of: 'other', kind: 'remove' }]);
  });

  test('a journal is rewritten without the name', async () => {
    put('runs/r.jsonl', journalLines({ run: 'r', text: TEXT }, [DONE]).join(''));
    const bytes = journalLines({ run: 'r', text: TEXT.replace('Ana', 'one') }, [DONE]).join('');
    expect(await places()).toEqual([{ path: 'runs/r.jsonl', of: 'run', kind: 'write', bytes }]);
  });

  test('a journal of which nothing can be read is removed', async () => {
    put('runs/r.jsonl', 'Ana');
    expect(await places()).toEqual([{ path: 'runs/r.jsonl', of: 'run', kind: 'remove' }]);
  });

  test('a journal whose session needs the name is left, and that is said', async () => {
    put('runs/r.jsonl', journalLines({ run: 'r', text: 'lane 1\nSet\n4 x 50 kick rest 15\n' }, [DONE]).join(''));
    expect(await places('kick')).toEqual([
      {
        path: 'runs/r.jsonl',
        of: 'run',
        kind: 'leave',
        why:
          'In the record r.jsonl the name is also a word by which the session was read: it is left as it is. ' +
          'Delete that run, if the name must go there too.',
      },
    ]);
  });

  test('what a newer Lanecall wrote is left, and that is said', async () => {
    put('runs/r.jsonl', journalLines({ run: 'r', text: TEXT, journal: 3 }, []).join(''));
    put('runs/s.after.json', afterwards({ notes: ['Ana'] }, AFTERWARDS_VERSION + 1));
    const why = (name: string) =>
      `${name} is of a newer Lanecall and left as it is: delete the name with that newer version too.`;
    expect(await places()).toEqual([
      { path: 'runs/r.jsonl', of: 'run', kind: 'leave', why: why('r.jsonl') },
      { path: 'runs/s.after.json', of: 'run', kind: 'leave', why: why('s.after.json') },
    ]);
  });

  test.each([
    ['of its own version', afterwards({ notes: ['Ana'], effort: 11 }, AFTERWARDS_VERSION)],
    ['of an odd version', afterwards({ notes: ['Ana'] }, 2.5)],
    ['of none', 'Ana'],
    ['cut short', '{"notes":["Ana'],
  ])('damaged additions with the name, %s, are removed', async (_, text) => {
    put('runs/r.after.json', text);
    expect(await places()).toEqual([{ path: 'runs/r.after.json', of: 'run', kind: 'remove' }]);
  });

  test('additions lose the name in marks, notes and names, and attendance keeps its count', async () => {
    const added = {
      marks: [{ command: 1, words: 'Ana: cramp' }],
      notes: ['Ana was tired', 'calm'],
      attendance: [
        { lane: 1, swimmers: 3, names: ['Ana', 'Bram', 'Ana Lee'] },
        { lane: 2, swimmers: 1, names: ['Ana'] },
        { lane: 3, swimmers: 2, names: null },
      ],
      effort: 4,
    };
    expect(await addedLeft(added)).toEqual({
      version: 1,
      run: 'r',
      ...NOTHING_ADDED,
      marks: [{ command: 1, words: 'somebody: cramp' }],
      notes: ['somebody was tired', 'calm'],
      attendance: [
        { lane: 1, swimmers: 3, names: ['Bram', 'somebody Lee'] },
        { lane: 2, swimmers: 1, names: null },
        { lane: 3, swimmers: 2, names: null },
      ],
      effort: 4,
    });
    expect(await places()).toMatchObject([{ path: 'runs/r.after.json', of: 'run', kind: 'write' }]);
    expect(await addedLeft({ ...added, attendance: null })).toMatchObject({ attendance: null });
  });

  test('one letter takes the name’s place where words have no room for more', async () => {
    const words = (most: number) => `${'x'.repeat(most - 4)} Ana`;
    const left = await addedLeft({
      marks: [{ command: 0, words: words(200) }],
      notes: [words(2000)],
      attendance: [{ lane: 1, swimmers: 1, names: [words(100)] }],
    });
    const lengths = [left!.marks[0]!.words, left!.notes[0]!, left!.attendance![0]!.names![0]!].map(
      ({ length }) => length,
    );
    expect(lengths).toEqual([198, 1998, 98]);
  });
});

describe('[names] in a text', () => {
  test('other files in a text folder are left alone, and leftovers of a cut-off write are removed', async () => {
    put('sessions/x.txt.new', 'Bram');
    put('sessions/x.doc', 'Ana');
    put('sessions/x.txt', 'lane 1 Bram');
    expect(await places()).toEqual([{ path: 'sessions/x.txt.new', of: 'other', kind: 'remove' }]);
  });

  test('a text is rewritten without the name, under the same file name if that does not have it', async () => {
    put('bin/pieces/Tuesday.txt', TEXT);
    expect(await places()).toEqual([
      { path: 'bin/pieces/Tuesday.txt', of: 'text', kind: 'write', bytes: TEXT.replace('Ana', 'one') },
    ]);
  });

  test('a file with the name in its file name gets a free one without it, whatever the case of the letters', async () => {
    put('sessions/SOMEBODY 200s.txt', 'x');
    put('sessions/Ana 200s.txt', 'x');
    put('sessions/ana 200s.txt', 'y');
    expect(await places()).toEqual([
      {
        path: 'sessions/Ana 200s.txt',
        of: 'text',
        kind: 'write',
        bytes: 'x',
        to: '/data/sessions/somebody 200s (2).txt',
      },
      {
        path: 'sessions/ana 200s.txt',
        of: 'text',
        kind: 'write',
        bytes: 'y',
        to: '/data/sessions/somebody 200s (3).txt',
      },
    ]);
  });

  test('a file that is not plain text is left and reported if it has the name, inside or in its file name', async () => {
    put('sessions/Ana.txt', Uint8Array.from([0xff]));
    put('sessions/film.txt', Buffer.concat([Buffer.from([0xff]), Buffer.from(' Ana')]));
    put('sessions/other.txt', Uint8Array.from([0xff]));
    const why = (file: string) => `${file} has the name and is no plain text: it is left as it is.`;
    expect(await places()).toEqual([
      { path: 'sessions/Ana.txt', of: 'text', kind: 'leave', why: why('Ana.txt') },
      { path: 'sessions/film.txt', of: 'text', kind: 'leave', why: why('film.txt') },
    ]);
  });

  test('a byte-order mark at the beginning stays', async () => {
    put('sessions/x.txt', `\uFEFF${TEXT}`);
    expect(await places()).toMatchObject([{ bytes: `\uFEFF${TEXT.replace('Ana', 'one')}` }]);
  });
});

describe('[names] in a list', () => {
  test('each text in a list is rewritten without the name, whatever else the list has', async () => {
    put('squads.json', JSON.stringify({ a: [null, 1, true, 'Ana', { Ana: ['lane 1 Ana'] }] }));
    const without = { a: [null, 1, true, 'somebody', { somebody: ['lane 1 one'] }] };
    expect(await places()).toEqual([
      { path: 'squads.json', of: 'other', kind: 'write', bytes: `${JSON.stringify(without, null, 2)}\n` },
    ]);
  });

  test('a list that is not one of ours, or was set aside, is removed', async () => {
    put('library.json', 'Ana?');
    put('squads.json.aside-1', '["Ana"]');
    put('my squads.json', '["Ana"]');
    put('screens.json', '["Ana"]');
    expect(await places()).toEqual([
      { path: 'library.json', of: 'other', kind: 'remove' },
      { path: 'squads.json.aside-1', of: 'other', kind: 'remove' },
    ]);
  });
});

describe('[names] a file that', () => {
  test.each(['ENOENT', 'EISDIR', 'NOT_ORDINARY'])('is none any more (%s) is passed over', async (code) => {
    for (const path of ['runs/r.jsonl', 'sessions/x.txt', 'squads.json']) {
      put(path, 'Ana');
      disk.unreadable.set(`/data/${path}`, code);
    }
    expect(await places()).toEqual([]);
  });

  test('cannot be read stops the deletion', async () => {
    put('runs/r.jsonl', 'Ana');
    disk.unreadable.set('/data/runs/r.jsonl', 'EIO');
    await expect(places()).rejects.toMatchObject({ code: 'EIO' });
  });
});
