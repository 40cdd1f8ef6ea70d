/* What is known of the texts of a folder: read again only where the system, or the time, says so. */

import { beforeEach, describe, expect, test } from 'vitest';
import { Catalogue } from '../../../app/host/library/catalogue.ts';
import { Shelf } from '../../../app/host/library/shelf.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { settled } from '../../support/host/deck/journalled-deck.ts';

const FOLDER = '/data/sessions';

let disk: FakeDisk;
let catalogue: Catalogue;
let time: number;
/** What has been asked of the folder since this was emptied. */
let asked: string[];
let tell: (name: string | null) => void;

beforeEach(() => {
  time = 1_000_000;
  asked = [];
  disk = new FakeDisk();
  const { list, facts, read } = disk;
  disk.list = (path) => (asked.push('list'), list.call(disk, path));
  disk.facts = (path) => (asked.push(`facts ${path.slice(FOLDER.length + 1)}`), facts.call(disk, path));
  disk.read = (path) => (asked.push(`read ${path.slice(FOLDER.length + 1)}`), read.call(disk, path));
  // Told by the test alone.
  disk.watch = (_, changed) => ((tell = changed), { close: () => undefined });
  catalogue = new Catalogue(new Shelf(disk, FOLDER), 'session', () => time);
});

function write(name: string, text: string, at = time): void {
  disk.wall = at;
  disk.put(`${FOLDER}/${name}.txt`, Buffer.from(text));
}

async function find(text = '', usedAt: (name: string) => number = () => 0): Promise<string[]> {
  const entries = await catalogue.find(text, usedAt);
  await settled();
  return entries.map(({ name }) => name);
}

describe('[library] a list', () => {
  test('has the last used first; those of the same moment by name', async () => {
    write('b', 'x', 5);
    write('a', 'x', 5);
    write('c', 'x', 9);
    write('d', 'x', 1);
    expect(await find('', (name) => (name === 'd' ? 7 : 0))).toEqual(['c', 'd', 'a', 'b']);
    expect((await catalogue.find('', () => 7)).map(({ usedAt }) => usedAt)).toEqual([9, 7, 7, 7]);
  });

  test('has the texts that contain all the words', async () => {
    write('one', 'free kick');
    write('two', 'free');
    expect(await find('KICK free')).toEqual(['one']);
    expect(await find('free')).toEqual(['one', 'two']);
  });
});

describe('[library] a list asks the disk', () => {
  beforeEach(async () => {
    write('a', 'one');
    write('b', 'two');
    await find();
    asked.length = 0;
  });

  test('for nothing if nothing was reported as changed', async () => {
    await find();
    time += 4999;
    await find();
    expect(asked).toEqual([]);
  });

  test('only for files that were reported as changed', async () => {
    write('a', 'three');
    tell('a.txt');
    expect(await find('three')).toEqual(['a']);
    expect(asked).toEqual(['facts a.txt', 'read a.txt']);
    asked.length = 0;
    await find();
    expect(asked).toEqual([]);
  });

  test('for all if anything may have changed, and reads only those that did', async () => {
    tell(null);
    await find();
    expect(asked).toEqual(['list', 'facts a.txt', 'facts b.txt']);
  });

  test('for a file that was reported, and forgets one that is gone', async () => {
    disk.takeAway(`${FOLDER}/a.txt`);
    tell('a.txt');
    expect(await find()).toEqual(['b']);
  });

  test('for all after five seconds; that list does not wait, the next one has it', async () => {
    write('c', 'new');
    time += 5000;
    expect(await find()).toEqual(['a', 'b']);
    expect(asked).toContain('list');
    expect(await find()).toEqual(['a', 'b', 'c']);
  });

  test('for all if the time of day was set back', async () => {
    time -= 5000;
    await find();
    expect(asked).toContain('list');
  });

  test('again if it refused', async () => {
    tell(null);
    const { list } = disk;
    disk.list = () => Promise.reject(Object.assign(new Error('EIO'), { code: 'EIO' }));
    await expect(find()).rejects.toThrow('EIO');
    disk.list = list;
    write('c', 'new');
    expect(await find()).toEqual(['a', 'b', 'c']);
  });

  test('for all after it was told to forget', async () => {
    write('c', 'new');
    catalogue.forget();
    expect(await find()).toEqual(['a', 'b', 'c']);
  });

  test('only once, however many ask meanwhile', async () => {
    tell(null);
    await Promise.all([catalogue.find('', () => 0), catalogue.find('', () => 0)]);
    expect(asked.filter((each) => each === 'list')).toHaveLength(1);
  });

  test('once more for what changed meanwhile', async () => {
    tell(null);
    const { list } = disk;
    disk.list = async (path) => {
      const names = await list.call(disk, path);
      write('d', 'late');
      tell('d.txt');
      return names;
    };
    await find();
    disk.list = list;
    expect(await find('late')).toEqual(['d']);
  });
});

describe('[library] where the system does not tell of changes', () => {
  test.each([
    ['cannot', () => null],
    [
      'refuses',
      () => {
        throw new Error('no more watches');
      },
    ],
  ])('because it %s: every list looks at all files', async (_, watch) => {
    disk.watch = watch;
    write('a', 'one');
    expect(await find()).toEqual(['a']);
    write('b', 'two');
    expect(await find()).toEqual(['a', 'b']);
  });

  test('a hundred files are looked at 32 at a time', async () => {
    disk.watch = () => null;
    for (let index = 100; index < 200; index++) write(`s${index}`, 'x');
    let at = 0;
    let most = 0;
    const { facts } = disk;
    disk.facts = async (path) => {
      most = Math.max(most, ++at);
      await Promise.resolve();
      at--;
      return facts.call(disk, path);
    };
    expect(await find()).toHaveLength(100);
    expect(most).toBe(32);
  });
});

describe('[library] what cannot be shown', () => {
  test('is listed with a sentence: a file that is not text, or that cannot be read', async () => {
    write('film', 'x');
    disk.put(`${FOLDER}/film.txt`, Uint8Array.from([0xff]));
    write('locked', 'x');
    disk.unreadable.set(`${FOLDER}/locked.txt`, 'EACCES');
    const entries = await catalogue.find('', () => 0);
    expect(entries.map(({ name, title, day, figures, note }) => [name, title, day, figures, note])).toEqual([
      ['film', null, null, null, 'no plain text'],
      ['locked', null, null, null, 'cannot be read'],
    ]);
    expect(await find('film')).toEqual(['film']);
  });

  test('is left out if the file goes just then', async () => {
    write('a', 'one');
    disk.unreadable.set(`${FOLDER}/a.txt`, 'ENOENT');
    const [entry] = await catalogue.find('', () => 0);
    expect(entry).toMatchObject({ name: 'a', title: null });
    expect(entry!.note).not.toBe('cannot be read');
  });

  test('is left out if the system knows nothing of it', async () => {
    write('a', 'one');
    write('odd', 'two');
    const { facts } = disk;
    disk.facts = (path) => (path.endsWith('odd.txt') ? Promise.reject(new Error('EIO')) : facts.call(disk, path));
    expect(await find()).toEqual(['a']);
  });
});

test('[library] a file that is the same to its number, its length and its change is not read again; any other is', async () => {
  write('a', 'one');
  await find();
  asked.length = 0;
  // Another file in its place, as long as it.
  write('a', 'two');
  tell('a.txt');
  expect(await find('two')).toEqual(['a']);
  expect(asked).toContain('read a.txt');
});

test.each([
  ['number', { id: 'other' }],
  ['length', { length: 99 }],
])('[library] one of another %s is read again, even where its time is the same', async (_, other) => {
  write('a', 'one');
  await find();
  asked.length = 0;
  const { facts } = disk;
  disk.facts = async (path) => ({ ...(await facts.call(disk, path))!, ...other });
  tell('a.txt');
  await find();
  expect(asked).toContain('read a.txt');
});
