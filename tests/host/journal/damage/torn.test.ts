/* What is kept beside a journal: each piece under a name of its own, and never one in the place of another. */

import { expect, test } from 'vitest';
import { cutOffTorn, putAside, setTornAside } from '../../../../app/host/journal/torn.ts';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';

const PATH = '/data/runs/a.jsonl';

const bytes = (text: string) => new TextEncoder().encode(text);

test('[journal] bytes that are set aside never overwrite what was set aside before', async () => {
  const disk = new FakeDisk();
  for (const piece of ['one', 'two', 'three']) await setTornAside(disk, PATH, bytes(piece));
  expect([...disk.files.keys()].map((name) => [name, disk.text(name)])).toEqual([
    [`${PATH}.torn`, 'one'],
    [`${PATH}.2.torn`, 'two'],
    [`${PATH}.3.torn`, 'three'],
  ]);
});

test('[journal] a whole file that is put aside overwrites nothing either', async () => {
  const disk = new FakeDisk();
  await setTornAside(disk, PATH, bytes('kept'));
  disk.put(PATH, bytes('useless'));
  await putAside(disk, [PATH]);
  expect([...disk.files.keys()]).toEqual([`${PATH}.torn`, `${PATH}.2.torn`]);
  expect(disk.text(`${PATH}.2.torn`)).toBe('useless');
});

test('[journal] a torn end is kept aside, then cut off on the disk itself, and the file is closed', async () => {
  const disk = new FakeDisk();
  disk.put(PATH, bytes('whole and torn'));
  await cutOffTorn(disk, PATH, 5, bytes(' and torn'));
  expect(disk.text(PATH)).toBe('whole');
  expect(disk.safe.get(PATH)).toEqual(bytes('whole'));
  expect(disk.text(`${PATH}.torn`)).toBe(' and torn');
  expect(disk.openFiles).toBe(0);
});

test('[journal] a file whose torn end cannot be cut off is closed all the same', async () => {
  const disk = new FakeDisk();
  disk.put(PATH, bytes('whole and torn'));
  disk.unsyncable = 'EIO';
  await expect(cutOffTorn(disk, PATH, 5, bytes(' and torn'))).rejects.toMatchObject({ code: 'EIO' });
  expect(disk.openFiles).toBe(0);
});
