/* One folder of texts: what is a text there, and that nothing is written over that is not as it was known. */

import { beforeEach, describe, expect, test } from 'vitest';
import { Shelf, ShelfRefusal } from '../../../app/host/library/shelf.ts';
import type { FileMark } from '../../../app/host/journal/disk.ts';
import { FakeDisk } from '../../support/host/fake-disk.ts';

let disk: FakeDisk;
let shelf: Shelf;
let version: string;

beforeEach(async () => {
  disk = new FakeDisk();
  shelf = new Shelf(disk, '/data/sessions');
  version = await shelf.create('Kick', 'one');
});

/** What a replacement is refused with. */
async function refusal(at = version): Promise<unknown> {
  const error = await shelf.replace('Kick', 'two', at).then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof ShelfRefusal)) return error;
  return [error.message, error.changed];
}

const CHANGED = 'Kick.txt was changed elsewhere.';

describe('[library] a text is replaced', () => {
  test('where it is as it was known, whose name is 32 digits', async () => {
    expect(version).toMatch(/^[0-9a-f]{32}$/);
    const next = await shelf.replace('Kick', 'two', version);
    expect(await shelf.read('Kick')).toEqual({ text: 'two', version: next });
  });

  test('by itself without a word to the disk', async () => {
    disk.beforeChange = () => expect.fail('nothing is written');
    expect(await shelf.replace('Kick', 'one', version)).toBe(version);
  });

  test('neither where it is another by now, nor where it is gone', async () => {
    expect(await refusal('0'.repeat(32))).toEqual([CHANGED, { now: { text: 'one', version } }]);
    await shelf.remove('Kick');
    expect(await refusal()).toEqual([CHANGED, { now: null }]);
  });

  test.each<[string, (mark: FileMark) => readonly (FileMark | null)[]]>([
    ['changed', (mark) => [mark, { ...mark, changed: mark.changed + 1n }]],
    ['longer', (mark) => [mark, { ...mark, length: mark.length + 1 }]],
    ['gone', (mark) => [mark, null]],
    ['there', (mark) => [null, mark]],
  ])('nor where it is %s in the last moment', async (_, marks) => {
    const seen = [...marks(disk.mark('/data/sessions/Kick.txt')!)];
    disk.mark = () => seen.shift() ?? null;
    expect(await refusal()).toEqual([CHANGED, { now: { text: 'one', version } }]);
    expect(disk.text('/data/sessions/Kick.txt')).toBe('one');
  });

  test('nor where the disk refuses, which is no change elsewhere', async () => {
    disk.refuses = 'EROFS';
    expect(await refusal()).toMatchObject({ code: 'EROFS' });
  });
});

describe('[library] a folder of texts', () => {
  const FILES = ['Kick.txt', 'Kick.doc', '.hidden.txt', '.txt', 'a:b.txt', 'txt'];

  test('has those that end as texts do, and are not hidden or elsewhere', async () => {
    disk.list = () => Promise.resolve(FILES);
    expect(await shelf.names()).toEqual(['Kick']);
  });

  test('tells of changes to those alone, or of any', async () => {
    const told: (string | null)[] = [];
    let tell: (file: string | null) => void = () => undefined;
    disk.watch = (_, changed) => ((tell = changed), { close: () => undefined });
    await shelf.watch((name) => told.push(name));
    for (const file of [...FILES, null]) tell(file);
    expect(told).toEqual(['Kick', null]);
  });

  test('has nothing by a name that leaves it', async () => {
    await expect(shelf.read('../x')).rejects.toThrow('../x is no name of a file in the library.');
  });
});
