/* One folder of texts: what is a text there, and that nothing is written over that is not as it was known. */

import { beforeEach, describe, expect, test } from 'vitest';
import { Shelf, ShelfRefusal } from '../../../app/host/library/shelf.ts';
import type { FileMark } from '../../../app/host/journal/disk.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';

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

describe('[library] replacing a text', () => {
  test('is done if it is still the known version', async () => {
    expect(version).toMatch(/^[0-9a-f]{32}$/);
    const next = await shelf.replace('Kick', 'two', version);
    expect(await shelf.read('Kick')).toEqual({ text: 'two', version: next });
  });

  test('by itself does not touch the disk', async () => {
    disk.beforeChange = () => expect.fail('nothing is written');
    expect(await shelf.replace('Kick', 'one', version)).toBe(version);
  });

  test('is refused if it has changed or gone', async () => {
    expect(await refusal('0'.repeat(32))).toEqual([CHANGED, { now: { text: 'one', version } }]);
    await shelf.remove('Kick');
    expect(await refusal()).toEqual([CHANGED, { now: null }]);
  });

  test.each<[string, (mark: FileMark) => readonly (FileMark | null)[]]>([
    ['changed', (mark) => [mark, { ...mark, changed: mark.changed + 1n }]],
    ['longer', (mark) => [mark, { ...mark, length: mark.length + 1 }]],
    ['gone', (mark) => [mark, null]],
    ['there', (mark) => [null, mark]],
  ])('is refused if it is %s at the last moment', async (_, marks) => {
    const seen = [...marks(disk.mark('/data/sessions/Kick.txt')!)];
    disk.mark = () => seen.shift() ?? null;
    expect(await refusal()).toEqual([CHANGED, { now: { text: 'one', version } }]);
    expect(disk.text('/data/sessions/Kick.txt')).toBe('one');
  });

  test('fails if the disk refuses, which is not said to be a change', async () => {
    disk.refuses = 'EROFS';
    expect(await refusal()).toMatchObject({ code: 'EROFS' });
  });
});

describe('[library] a folder of texts', () => {
  const FILES = ['Kick.txt', 'Kick.doc', '.hidden.txt', '.txt', 'a:b.txt', 'txt'];

  test('lists files that end as texts do, and none that is hidden or elsewhere', async () => {
    disk.list = () => Promise.resolve(FILES);
    expect(await shelf.names()).toEqual(['Kick']);
  });

  test('has files whose ending is in capitals, and reads, saves, moves and removes them', async () => {
    const path = '/data/sessions/SESSION.TXT';
    await disk.create(path, Buffer.from('old'));
    const told: (string | null)[] = [];
    let tell: (file: string | null) => void = () => undefined;
    disk.watch = (_, changed) => ((tell = changed), { close: () => undefined });
    await shelf.watch((name) => told.push(name));
    tell('SESSION.TXT');
    expect([await shelf.names(), told]).toEqual([['Kick', 'SESSION'], ['SESSION']]);
    // Before anybody has listed them too.
    const other = new Shelf(disk, '/data/sessions');
    const before = await other.read('SESSION');
    await other.replace('SESSION', 'new', before!.version);
    expect([before!.text, disk.text(path), await shelf.facts('SESSION')]).toEqual(['old', 'new', expect.anything()]);
    await shelf.move('SESSION', new Shelf(disk, '/data/bin'), 'SESSION');
    expect([await shelf.names(), disk.text('/data/bin/SESSION.txt')]).toEqual([['Kick'], 'new']);
    await disk.create(path, Buffer.from('again'));
    await shelf.names();
    await shelf.remove('SESSION');
    expect([...disk.files.keys()]).not.toContain(path);
  });

  test('of two files with one name the one in small letters counts, also once it comes', async () => {
    await disk.create('/data/sessions/Kick.TXT', Buffer.from('two'));
    await disk.create('/data/sessions/Swim.TXT', Buffer.from('three'));
    expect([await shelf.names(), (await shelf.read('Kick'))?.text]).toEqual([['Kick', 'Swim'], 'one']);
    await disk.remove('/data/sessions/Swim.TXT');
    await shelf.create('Swim', 'four');
    expect((await shelf.read('Swim'))?.text).toBe('four');
  });

  test('reports changes of those alone, or that anything may have changed', async () => {
    const told: (string | null)[] = [];
    let tell: (file: string | null) => void = () => undefined;
    disk.watch = (_, changed) => ((tell = changed), { close: () => undefined });
    await shelf.watch((name) => told.push(name));
    for (const file of [...FILES, null]) tell(file);
    expect(told).toEqual(['Kick', null]);
  });

  test('has no text under a name that leads out of it', async () => {
    await expect(shelf.read('../x')).rejects.toThrow('../x is no name of a file in the library.');
  });
});
