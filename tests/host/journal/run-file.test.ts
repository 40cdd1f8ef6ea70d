/* The file of one run by itself: when a line may be written at once, what is written again, and what is read back. */

import { beforeEach, describe, expect, test } from 'vitest';
import type { DiskFile } from '../../../app/host/journal/disk.ts';
import type { JournalEntry } from '../../../app/host/journal/journal-line.ts';
import { lineOf } from '../../../app/host/journal/journal-line.ts';
import { RunFile } from '../../../app/host/journal/run-file.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { FreeFolder } from '../../support/system/free-folder.ts';
import { settled } from '../../support/host/deck/journalled-deck.ts';

const PATH = '/data/runs/a.jsonl';

const entry = (id: string): JournalEntry => ({
  say: 'command',
  id,
  command: {},
  at: 0,
  mono: 0,
  uptime: 0,
  wall: 0,
  boot: 'b',
});

let disk: FakeDisk;
let guard: FreeFolder;
let said: string[];
/** The offsets at which anything was written. */
let writes: number[];

beforeEach(() => {
  disk = new FakeDisk();
  guard = new FreeFolder();
  said = [];
  writes = [];
  const open = disk.open.bind(disk);
  disk.open = async (path) => {
    const file = await open(path);
    return { ...file, write: (bytes, at) => (writes.push(at), file.write(bytes, at)) };
  };
});

const ports = () => ({ disk, guard, mended: (sentence: string) => void said.push(sentence) });
const newFile = () => new RunFile(ports(), PATH);
const length = () => disk.files.get(PATH)!.length;

/** The ids of the lines in the file, all of which must be whole and follow each other. */
function ids(): readonly string[] {
  let after: string | null = null;
  return disk
    .text(PATH)
    .split('\n')
    .slice(0, -1)
    .map((line) => {
      const { id } = JSON.parse(line) as { id: string };
      const { text, sum } = lineOf(entry(id), after);
      after = sum;
      expect(`${line}\n`).toBe(text);
      return id;
    });
}

/** A file that another host has left with one line, and perhaps more behind it that cannot be used. */
function foundFile(torn: string | null, shared = false): RunFile {
  const { text, sum } = lineOf(entry('a'), null);
  disk.put(PATH, Buffer.from(text + (torn ?? '')));
  const bytes = Buffer.from(text);
  return RunFile.found(ports(), { path: PATH, bytes, sum, torn: torn === null ? null : Buffer.from(torn) }, shared);
}

describe('[journal] a line at once, before a sleep', () => {
  test('is on the disk when the call returns, and the next line follows it', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    expect(file.writeNow(entry('b'))).toBe(true);
    expect(disk.safe.get(PATH)).toEqual(disk.files.get(PATH));
    await file.write([entry('c')]);
    expect(ids()).toEqual(['a', 'b', 'c']);
    expect(said).toEqual([]);
  });

  test('is not written before the file is open', () => {
    expect(newFile().writeNow(entry('a'))).toBe(false);
    expect(disk.files.size).toBe(0);
  });

  test('is not written after half a line or a failed sync: that is put right first', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    // More of it stays than the next line is long.
    disk.room = 500;
    await expect(file.write([entry('b'.repeat(600))])).rejects.toMatchObject({ code: 'ENOSPC' });
    disk.room = Infinity;
    expect(file.writeNow(entry('c'))).toBe(false);
    await file.write([entry('d')]);
    disk.unsyncable = 'EIO';
    await expect(file.sync()).rejects.toMatchObject({ code: 'EIO' });
    expect(file.writeNow(entry('e'))).toBe(false);
    expect(ids()).toEqual(['a', 'd']);
  });

  test('is not written if another host has the folder, and the file stays as it was', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    guard.taken = true;
    expect(file.writeNow(entry('b'))).toBe(false);
    guard.taken = false;
    expect(file.writeNow(entry('c'))).toBe(true);
    expect(ids()).toEqual(['a', 'c']);
  });

  test('that was half written is removed before the next', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    disk.room = 5;
    expect(file.writeNow(entry('b'))).toBe(false);
    disk.room = Infinity;
    await file.write([entry('c')]);
    expect(ids()).toEqual(['a', 'c']);
    expect(said).toEqual([]);
  });
});

describe('[journal] what a failed sync may have dropped', () => {
  test('is written again from the last byte known to be safe', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    await file.sync();
    const safe = length();
    await file.write([entry('b')]);
    disk.unsyncable = 'EIO';
    await expect(file.sync()).rejects.toMatchObject({ code: 'EIO' });
    disk.unsyncable = null;
    writes = [];
    await file.sync();
    expect(writes).toEqual([safe]);
    await file.sync();
    expect(writes).toEqual([safe]);
    expect(disk.safe.get(PATH)).toEqual(disk.files.get(PATH));
    expect(file.writeNow(entry('c'))).toBe(true);
    expect(ids()).toEqual(['a', 'b', 'c']);
  });

  test('is only what the later sync left over, though an earlier sync ends after it', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    let end = (): void => undefined;
    disk.held = new Promise((resolve) => (end = resolve));
    const first = file.sync();
    await settled();
    disk.held = Promise.resolve();
    await file.write([entry('b')]);
    await file.sync();
    const safe = length();
    end();
    await first;
    await file.write([entry('c')]);
    disk.unsyncable = 'EIO';
    await expect(file.sync()).rejects.toMatchObject({ code: 'EIO' });
    disk.unsyncable = null;
    writes = [];
    await file.sync();
    expect(writes).toEqual([safe]);
  });

  test('may read otherwise without being harm by others; bytes that were safe may not', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    await file.sync();
    await file.write([entry('b')]);
    disk.unsyncable = 'EIO';
    await expect(file.sync()).rejects.toMatchObject({ code: 'EIO' });
    disk.unsyncable = null;
    const dropped = disk.files.get(PATH)!.slice().fill(0, disk.safe.get(PATH)!.length);
    disk.files.set(PATH, dropped);
    await file.sync();
    expect([ids(), said]).toEqual([['a', 'b'], []]);
    disk.files.set(PATH, disk.files.get(PATH)!.slice().fill(0, 0, 10));
    await file.write([entry('c')]);
    expect([ids(), said]).toEqual([['a', 'b', 'c'], [expect.stringContaining('was written over')]]);
  });
});

describe('[journal] a sync', () => {
  test('of an open file does not wait for a write that the disk holds up', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    let end = (): void => undefined;
    disk.writesHeld = new Promise((resolve) => (end = resolve));
    const written = file.write([entry('b')]);
    await settled();
    await file.sync();
    expect([disk.syncs, ids()]).toEqual([1, ['a']]);
    end();
    await written;
    expect(ids()).toEqual(['a', 'b']);
  });
});

describe('[journal] a file that was found', () => {
  test('is opened by its first sync if nothing has been written yet', async () => {
    await foundFile(null).sync();
    expect([disk.syncs, disk.openFiles, ids(), writes]).toEqual([1, 1, ['a'], []]);
  });

  test('goes on after its last line; unusable bytes are kept aside first, once', async () => {
    const file = foundFile('{"half');
    const { id } = disk.mark(PATH)!;
    await file.write([entry('b'), entry('c')]);
    await file.write([entry('d')]);
    expect(ids()).toEqual(['a', 'b', 'c', 'd']);
    expect(disk.mark(PATH)!.id).toBe(id);
    expect([...disk.files.keys()]).toEqual([PATH, `${PATH}.torn`]);
    expect(disk.text(`${PATH}.torn`)).toBe('{"half');
    expect(said).toEqual([]);
  });

  test('that another host may still have open is copied to a new file at once, and only once', async () => {
    const file = foundFile('{"half', true);
    const before = disk.mark(PATH)!.id;
    await file.write([entry('b')]);
    const anew = disk.mark(PATH)!.id;
    expect(anew).not.toBe(before);
    await file.close();
    await file.write([entry('c')]);
    expect(disk.mark(PATH)!.id).toBe(anew);
    expect(ids()).toEqual(['a', 'b', 'c']);
    expect(disk.text(`${PATH}.torn`)).toBe('{"half');
    expect(said).toEqual([]);
  });

  test('without doubtful lines has them on the disk: after a failed sync only new lines are written again', async () => {
    const file = foundFile(null);
    const safe = length();
    await file.write([entry('b')]);
    disk.unsyncable = 'EIO';
    await expect(file.sync()).rejects.toMatchObject({ code: 'EIO' });
    disk.unsyncable = null;
    writes = [];
    await file.sync();
    expect(writes).toEqual([safe]);
  });
});

describe('[journal] the check before each line', () => {
  test('does not take a file for another where the system numbers it differently by name and once open', async () => {
    const mark = disk.mark.bind(disk);
    disk.mark = (path) => {
      const found = mark(path);
      return found && { ...found, id: `by name ${found.id}` };
    };
    const file = newFile();
    for (const id of ['a', 'b', 'c']) await file.write([entry(id)]);
    expect([ids(), said]).toEqual([['a', 'b', 'c'], []]);
    disk.files.set(PATH, disk.files.get(PATH)!.slice(0, 20));
    await file.write([entry('d')]);
    expect([ids(), said]).toEqual([['a', 'b', 'c', 'd'], [expect.stringContaining('was cut short')]]);
  });

  test('reads the file back where the system did not tell the time of our last line, and finds it unchanged', async () => {
    const open = disk.open.bind(disk);
    let dumb = false;
    disk.open = async (path): Promise<DiskFile> => {
      const file = await open(path);
      return {
        ...file,
        mark: () => {
          if (dumb) throw new Error('no mark');
          return file.mark();
        },
        write: async (bytes, at) => {
          await file.write(bytes, at);
          dumb = true;
        },
      };
    };
    const file = newFile();
    await file.write([entry('a')]);
    dumb = false;
    expect(disk.bytesRead).toBe(0);
    await file.write([entry('b')]);
    expect(disk.bytesRead).toBeGreaterThan(0);
    expect([ids(), said]).toEqual([['a', 'b'], []]);
  });

  test('closes the file that it leaves for a new one, and reports the harm once', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    await disk.remove(PATH);
    await file.write([entry('b')]);
    await file.write([entry('c')]);
    expect(disk.openFiles).toBe(1);
    expect(said).toEqual([expect.stringContaining('was removed or moved away')]);
    await file.close();
    expect(disk.openFiles).toBe(0);
    await file.close();
    expect(disk.openFiles).toBe(0);
  });

  test('finds a file gone that goes the moment it is opened', async () => {
    const open = disk.open.bind(disk);
    disk.open = async (path) => {
      const file = await open(path);
      disk.takeAway(path);
      disk.open = open;
      return file;
    };
    await newFile().write([entry('a')]);
    expect([ids(), said]).toEqual([['a'], [expect.stringContaining('was removed or moved away')]]);
  });

  test('finds a file gone also after a line that was half written', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    disk.room = 5;
    await expect(file.write([entry('b')])).rejects.toMatchObject({ code: 'ENOSPC' });
    disk.room = Infinity;
    disk.takeAway(PATH);
    await file.write([entry('c')]);
    expect([ids(), said]).toEqual([['a', 'c'], [expect.stringContaining('was removed or moved away')]]);
  });

  test('cuts off what another program wrote behind the lines, however long it is, and keeps it', async () => {
    const file = newFile();
    await file.write([entry('a')]);
    const strange = 'x'.repeat(1000);
    disk.files.set(PATH, Buffer.from(disk.text(PATH) + strange));
    await file.write([entry('b')]);
    expect([ids(), disk.text(`${PATH}.torn`)]).toEqual([['a', 'b'], strange]);
    expect(disk.text(PATH)).not.toContain('xxx');
  });

  test('that fails does not block the next line', async () => {
    const file = newFile();
    guard.taken = true;
    await expect(file.write([entry('a')])).rejects.toThrow('another Lanecall has the folder');
    guard.taken = false;
    await file.write([entry('b')]);
    expect(ids()).toEqual(['b']);
    expect(disk.folders).toContain('/data/runs');
  });
});
