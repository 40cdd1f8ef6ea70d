/* The bin on a disk in memory: how a file is named there, for how long it is kept, and what is nobody's to take away. */

import { beforeEach, describe, expect, test } from 'vitest';
import { Bin } from '../../../app/host/library/bin.ts';
import { Shelf } from '../../../app/host/library/shelf.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';

const NOW = Date.UTC(2026, 10, 27, 9, 30, 50, 123);
const MONTH = 30 * 24 * 60 * 60 * 1000;

let disk: FakeDisk;
let time: number;
let bin: Bin;
let shelf: Shelf;

beforeEach(() => {
  disk = new FakeDisk();
  time = NOW;
  bin = new Bin(disk, '/data/bin', () => time);
  shelf = new Shelf(disk, '/data/sessions');
});

const files = (): string[] => [...disk.files.keys()];

describe('[library] a discarded text', () => {
  test('has a file name that begins with the time, and is found by its id', async () => {
    await shelf.create('Thursday masters', 'text');
    const id = await bin.take('session', 'Thursday masters', shelf);
    expect(files()).toEqual(['/data/bin/sessions/2026-11-27T093050.123Z Thursday masters.txt']);
    expect(id).toBe('session 2026-11-27T093050.123Z Thursday masters');
    const entry = { id, kind: 'session', name: 'Thursday masters', discardedAt: NOW };
    expect(await bin.list()).toEqual([entry]);
    expect(await bin.find(id)).toEqual(entry);
    expect(await bin.find(`${id}x`)).toBeNull();
    await bin.putBack((await bin.find(id))!, shelf, 'Friday');
    expect(files()).toEqual(['/data/sessions/Friday.txt']);
  });

  test('with a name that leaves no room for the time has a shorter one', async () => {
    await shelf.create('é'.repeat(120), 'text');
    await bin.take('session', 'é'.repeat(120), shelf);
    expect((await bin.list()).map(({ name }) => name)).toEqual(['é'.repeat(100)]);
  });

  test('is kept apart from another of the same name and millisecond', async () => {
    await bin.keep('piece', 'Kick', 'one');
    await bin.keep('piece', 'Kick', 'two');
    expect(files()).toEqual([
      '/data/bin/pieces/2026-11-27T093050.123Z Kick.txt',
      '/data/bin/pieces/2026-11-27T093050.124Z Kick.txt',
    ]);
    expect((await bin.list()).map(({ kind, discardedAt }) => [kind, discardedAt - NOW])).toEqual([
      ['piece', 1],
      ['piece', 0],
    ]);
  });

  test('is listed with those of the other kind, the latest first', async () => {
    await bin.keep('session', 'a', '');
    time += 10;
    await bin.keep('piece', 'b', '');
    time += 10;
    await bin.keep('session', 'c', '');
    expect((await bin.list()).map(({ name }) => name)).toEqual(['c', 'b', 'a']);
  });
});

describe('[library] a text that has been in the bin for 30 days', () => {
  test('is there until the last millisecond, and then removed from the disk', async () => {
    await bin.keep('session', 'a', '');
    time += MONTH;
    expect(await bin.list()).toHaveLength(1);
    time += 1;
    expect(await bin.list()).toEqual([]);
    expect(files()).toEqual([]);
  });

  test.each([
    'letter to the pool',
    '2026-01-01 a',
    '2026-01-01T093050.123Z',
    '2026-01-01T093050.123Z ',
    '2026-13-01T093050.123Z a',
    'x2026-01-01T093050.123Z a',
    '2026-01-01T093050Z a',
  ])('is left alone if we did not put it there: "%s"', async (name) => {
    disk.put(`/data/bin/sessions/${name}.txt`, Buffer.from(''));
    expect(await bin.list()).toEqual([]);
    expect(files()).toEqual([`/data/bin/sessions/${name}.txt`]);
  });
});
