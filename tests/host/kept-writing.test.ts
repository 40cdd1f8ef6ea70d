/* A kept file is written by one write at a time, each of what is latest then. */

import { beforeEach, expect, test } from 'vitest';
import { KeptWriting } from '../../app/host/kept-writing.ts';
import { FreeFolder } from '../support/system/free-folder.ts';
import { FakeDisk } from '../support/host/folders/fake-disk.ts';
import { settled } from '../support/host/deck/journalled-deck.ts';

const PATH = '/data/kept.json';

let disk: FakeDisk;
let guard: FreeFolder;
let writing: KeptWriting;
let replaced: string[];
beforeEach(() => {
  disk = new FakeDisk();
  guard = new FreeFolder();
  replaced = [];
  const replace = disk.replace.bind(disk);
  disk.replace = (path, bytes) => {
    replaced.push(Buffer.from(bytes).toString());
    return replace(path, bytes);
  };
  writing = new KeptWriting({ disk, folder: '/data', guard }, PATH);
});

const bytesOf = (value: object) => `${JSON.stringify(value, null, 2)}\n`;

test('[kept] it is on the disk, in its folder, when the write resolves', async () => {
  expect(await writing.write({ a: 1 })).toBeNull();
  expect([disk.text(PATH), [...disk.folders]]).toEqual([bytesOf({ a: 1 }), ['/data']]);
  expect(await writing.write({ a: 2 })).toBeNull();
  expect(disk.text(PATH)).toBe(bytesOf({ a: 2 }));
});

test('[kept] of what comes while a write is under way only the latest is written, after it', async () => {
  let end = (): void => undefined;
  disk.writesHeld = new Promise((resolve) => (end = resolve));
  const first = writing.write({ a: 1 });
  await settled();
  const [second, third] = [writing.write({ a: 2 }), writing.write({ a: 3 })];
  await settled();
  expect(replaced).toEqual([bytesOf({ a: 1 })]);
  end();
  expect(await Promise.all([first, second, third])).toEqual([null, null, null]);
  expect(replaced).toEqual([bytesOf({ a: 1 }), bytesOf({ a: 3 })]);
});

test('[kept] a write that the disk or another host refuses gives the reason, and the next goes on', async () => {
  disk.refuses = 'ENOSPC';
  expect(await writing.write({ a: 1 })).toBe('the disk is full');
  disk.refuses = null;
  guard.taken = true;
  expect(await writing.write({ a: 2 })).toContain('another Lanecall has the folder');
  expect([disk.files.size, replaced]).toEqual([0, []]);
  guard.taken = false;
  expect(await writing.write({ a: 3 })).toBeNull();
  expect(disk.text(PATH)).toBe(bytesOf({ a: 3 }));
});
