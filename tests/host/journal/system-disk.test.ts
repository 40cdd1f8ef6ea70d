/* This machine's own disk through the port: what each call leaves in a folder, and what it says where it is refused. */

import {
  chmodSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
  type FSWatcher,
} from 'node:fs';
import { execFileSync } from 'node:child_process';
import { open, type FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { systemDisk } from '../../../app/host/journal/disk.ts';
import { bend, bendPromised, failure, onPlatform } from '../../support/system/bent-system.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';

let folder: string;
let path: string;

beforeEach(() => {
  folder = freshDataFolder();
  path = join(folder, 'a.jsonl');
});
afterEach(() => vi.restoreAllMocks());

/** What all open files share, by way of one of them. */
async function handlesOf(name: string): Promise<FileHandle> {
  const file = await open(name, 'a');
  await file.close();
  return Object.getPrototypeOf(file) as FileHandle;
}

const bytes = (text: string) => new TextEncoder().encode(text);
const text = (read: Uint8Array) => new TextDecoder().decode(read);

describe('[disk] folders and names', () => {
  test.skipIf(process.platform === 'win32')('a folder and those above it are made for this user alone', async () => {
    await systemDisk.makeFolder(join(folder, 'above', 'runs'));
    const modes = ['above', join('above', 'runs')].map((name) => statSync(join(folder, name)).mode & 0o777);
    expect(modes).toEqual([0o700, 0o700]);
  });

  test('a folder is made with those above it, and making it again is no fault', async () => {
    const deep = join(folder, 'x', 'y');
    await systemDisk.makeFolder(deep);
    await systemDisk.makeFolder(deep);
    expect(statSync(deep).isDirectory()).toBe(true);
  });

  test('a folder that does not exist has no names; a file cannot be listed', async () => {
    writeFileSync(path, '');
    expect(await systemDisk.list(folder)).toEqual(['a.jsonl']);
    expect(await systemDisk.list(join(folder, 'none'))).toEqual([]);
    await expect(systemDisk.list(path)).rejects.toMatchObject({ code: 'ENOTDIR' });
  });

  test('the disk says whether a name is taken, or why it cannot say', async () => {
    expect(await systemDisk.exists(path)).toBe(false);
    writeFileSync(path, '');
    expect(await systemDisk.exists(path)).toBe(true);
    await expect(systemDisk.exists(join(path, 'below'))).rejects.toMatchObject({ code: 'ENOTDIR' });
  });

  test('files are moved to their new names', async () => {
    const [one, two] = [join(folder, 'one'), join(folder, 'two')];
    writeFileSync(one, '1');
    writeFileSync(two, '2');
    await systemDisk.move([
      { from: one, to: `${one}.torn` },
      { from: two, to: `${two}.torn` },
    ]);
    expect(readdirSync(folder).sort()).toEqual(['one.torn', 'two.torn']);
    expect(readFileSync(`${two}.torn`, 'utf8')).toBe('2');
  });

  test('a link to itself is neither a file nor a free name', async () => {
    symlinkSync(path, path);
    await expect(systemDisk.exists(path)).rejects.toMatchObject({ code: 'ELOOP' });
  });
});

describe('[disk] writing', () => {
  test('a file is made for this user alone, and written at the given offset', async () => {
    const file = await systemDisk.open(path);
    await file.write(bytes('0123456789'), 0);
    await file.write(bytes('ab'), 4);
    await file.sync();
    file.writeNow(bytes('XY'), 9);
    expect(readFileSync(path, 'utf8')).toBe('0123ab678XY');
    await file.truncate(5);
    await file.close();
    expect(readFileSync(path, 'utf8')).toBe('0123a');
    expect(statSync(path).mode & 0o777).toBe(0o600);
  });

  test('a disk that takes three bytes at once gets all of them, each where it belongs', async () => {
    const handles = await handlesOf(path);
    const write = Reflect.get(handles, 'write') as (...given: unknown[]) => Promise<{ bytesWritten: number }>;
    type Given = [Uint8Array, number, number, number];
    vi.spyOn(handles, 'write').mockImplementation(function (this: FileHandle, ...given: unknown[]) {
      const [all, from, length, at] = given as Given;
      return write.call(this, all, from, Math.min(3, length), at) as never;
    });
    bend('writeSync', (real, fd, ...given) => {
      const [all, from, length, at] = given as unknown as Given;
      return real(fd, all, from, Math.min(3, length), at);
    });
    const file = await systemDisk.open(path);
    await file.write(bytes('0123456789'), 0);
    file.writeNow(bytes('abcdefgh'), 1);
    await file.close();
    expect(readFileSync(path, 'utf8')).toBe('0abcdefgh9');
  });

  test('what is written is on the disk itself after a sync, and by a program that ends at once without one', async () => {
    const file = await systemDisk.open(path);
    const handles = await handlesOf(path);
    const datasync = vi.spyOn(handles, 'datasync');
    let synced = 0;
    bend('fdatasyncSync', (real, fd) => {
      synced++;
      real(fd);
    });
    file.writeNow(bytes('X'), 0);
    await file.write(bytes('Y'), 1);
    await file.sync();
    await file.close();
    expect([synced, datasync.mock.calls.length]).toEqual([1, 1]);
  });

  test.each([
    ['linux', [1, 1, 3, 4, 6, 7, 8, 9]],
    ['win32', [0, 0, 1, 1, 2, 2, 2, 2]],
  ] as const)(
    'a name is on the disk itself at once, or gone from it: its folder is synced (%s)',
    async (platform, expected) => {
      writeFileSync(join(folder, 'old'), '');
      const sync = vi.spyOn(await handlesOf(join(folder, 'old')), 'sync');
      onPlatform(platform);
      const counts: number[] = [];
      const count = async (done: Promise<unknown>): Promise<void> => {
        await done;
        counts.push(sync.mock.calls.length);
      };
      await count(systemDisk.open(path).then((file) => file.close()));
      await count(systemDisk.open(path).then((file) => file.close()));
      // The file and its folder.
      await count(systemDisk.replace(path, bytes('new')));
      await count(systemDisk.move([{ from: path, to: `${path}.torn` }]));
      await count(systemDisk.create(path, bytes('new')));
      await count(systemDisk.remove(path));
      await count(systemDisk.removeAll([path, `${path}.torn`]));
      // Of those before one that cannot be removed too.
      writeFileSync(path, '');
      await count(expect(systemDisk.removeAll([path, join(folder, 'a\0b')])).rejects.toThrow('null bytes'));
      expect(counts).toEqual(expected);
    },
  );

  test('an existing file is opened as it is', async () => {
    writeFileSync(path, 'whole');
    const file = await systemDisk.open(path);
    expect(file.mark().length).toBe(5);
    await file.close();
    expect(readFileSync(path, 'utf8')).toBe('whole');
  });

  test('a replaced file has only the new bytes, and nothing else is left in the folder', async () => {
    writeFileSync(path, 'a long text that was there before');
    writeFileSync(`${path}.new`, 'what a kill has left of an earlier try');
    await systemDisk.replace(path, bytes('new'));
    expect(readFileSync(path, 'utf8')).toBe('new');
    expect(readdirSync(folder)).toEqual(['a.jsonl']);
  });

  test('one whose making was cut off between its two names is not written into, only replaced', async () => {
    writeFileSync(path, 'old');
    linkSync(path, `${path}.new`);
    const atLast = (): void => expect(readFileSync(path, 'utf8')).toBe('old');
    await systemDisk.replace(path, bytes('new'), atLast);
    expect(readFileSync(path, 'utf8')).toBe('new');
    expect(readdirSync(folder)).toEqual(['a.jsonl']);
  });

  test('a file that cannot be replaced stays, and nothing is left beside it', async () => {
    mkdirSync(path);
    await expect(systemDisk.replace(path, bytes('new'))).rejects.toMatchObject({ code: 'EISDIR' });
    expect(readdirSync(folder)).toEqual(['a.jsonl']);
    await expect(systemDisk.replace(join(folder, 'none', 'b'), bytes('new'))).rejects.toMatchObject({ code: 'ENOENT' });
  });
});

describe('[disk] creating a whole file', () => {
  test('makes it with all its bytes, and leaves nothing beside it', async () => {
    await systemDisk.create(path, bytes('new'));
    expect(readFileSync(path, 'utf8')).toBe('new');
    expect(statSync(path)).toMatchObject({ nlink: 1 });
    expect(readdirSync(folder)).toEqual(['a.jsonl']);
  });

  test('never replaces another, which stays as it is', async () => {
    writeFileSync(path, 'theirs');
    await expect(systemDisk.create(path, bytes('mine'))).rejects.toMatchObject({ code: 'EEXIST', message: 'EEXIST' });
    expect(readFileSync(path, 'utf8')).toBe('theirs');
    expect(readdirSync(folder)).toEqual(['a.jsonl']);
  });

  test('where the disk has no second names for a file it is made all the same, and still replaces no other', async () => {
    bendPromised('link', () => Promise.reject(failure('EPERM')));
    await systemDisk.create(path, bytes('new'));
    expect(readFileSync(path, 'utf8')).toBe('new');
    await expect(systemDisk.create(path, bytes('mine'))).rejects.toMatchObject({ code: 'EEXIST' });
    expect([readFileSync(path, 'utf8'), readdirSync(folder)]).toEqual(['new', ['a.jsonl']]);
  });

  test('a link that leads nowhere has the name too', async () => {
    symlinkSync('nowhere', path);
    await expect(systemDisk.create(path, bytes('mine'))).rejects.toMatchObject({ code: 'EEXIST' });
    expect([lstatSync(path).isSymbolicLink(), readdirSync(folder)]).toEqual([true, ['a.jsonl']]);
  });

  test('replacing one asks the check at the last moment', async () => {
    writeFileSync(path, 'old');
    const check = (): void => {
      // By now all of it is beside the place.
      expect(readFileSync(`${path}.new`, 'utf8')).toBe('new');
      throw new Error('somebody else has it');
    };
    await expect(systemDisk.replace(path, bytes('new'), check)).rejects.toThrow('somebody else has it');
    expect([readFileSync(path, 'utf8'), readdirSync(folder)]).toEqual(['old', ['a.jsonl']]);
  });
});

describe('[disk] removing a file', () => {
  test('takes away several at once; that one is gone already or is a folder stops nothing', async () => {
    const [one, two, none, inside] = ['one', 'two', 'none', 'folder'].map((name) => join(folder, name));
    for (const name of [one!, two!]) writeFileSync(name, '');
    mkdirSync(inside!);
    await systemDisk.removeAll([one!, none!, inside!, join(none!, 'x'), two!]);
    expect(readdirSync(folder)).toEqual(['folder']);
    writeFileSync(path, '');
    await expect(systemDisk.removeAll([join(path, 'x')])).rejects.toMatchObject({ code: 'ENOTDIR' });
  });

  test('takes it away; a missing file is refused', async () => {
    writeFileSync(path, '');
    await systemDisk.remove(path);
    expect(readdirSync(folder)).toEqual([]);
    await expect(systemDisk.remove(path)).rejects.toMatchObject({ code: 'ENOENT' });
  });
});

describe('[disk] the facts of a file', () => {
  test('are its mark and the time it was last written', async () => {
    writeFileSync(path, 'abc');
    utimesSync(path, 1_800_000_000, 1_700_000_000);
    expect(await systemDisk.facts(path)).toEqual({ ...systemDisk.mark(path), writtenAt: 1_700_000_000_000 });
  });

  test('are null without a file; other failures keep the system’s reason', async () => {
    writeFileSync(path, '');
    expect(await systemDisk.facts(join(folder, 'none'))).toBeNull();
    await expect(systemDisk.facts(join(path, 'below'))).rejects.toMatchObject({ code: 'ENOTDIR' });
  });
});

describe('[disk] changes in a folder', () => {
  test('are reported with the file’s name until the watch is closed', async () => {
    const told: (string | null)[] = [];
    const watch = systemDisk.watch(folder, (name) => told.push(name));
    writeFileSync(path, 'x');
    await expect.poll(() => told).toContain('a.jsonl');
    watch!.close();
  });

  test('keep no program from ending, and one in which watching fails may be of any file', () => {
    const told: (string | null)[] = [];
    const watch = systemDisk.watch(folder, (name) => told.push(name)) as FSWatcher;
    expect(process.getActiveResourcesInfo()).not.toContain('FSEventWrap');
    watch.emit('error', failure('ENOENT'));
    watch.close();
    expect(told).toEqual([null]);
  });

  test('cannot be watched where there is no folder', () => {
    expect(systemDisk.watch(join(folder, 'none'), () => undefined)).toBeNull();
  });
});

describe('[disk] reading', () => {
  test('a file is read whole, or from its end as far as it goes', async () => {
    writeFileSync(path, '0123456789');
    expect(text(await systemDisk.read(path))).toBe('0123456789');
    expect(text(await systemDisk.readStart(path, 4))).toBe('0123');
    expect(text(await systemDisk.readStart(path, 40))).toBe('0123456789');
    expect(text(await systemDisk.readEnd(path, 4))).toBe('6789');
    expect(text(await systemDisk.readEnd(path, 40))).toBe('0123456789');
    await expect(systemDisk.read(`${path}.none`)).rejects.toMatchObject({ code: 'ENOENT' });
  });

  test('a file is read at once, or only its start', async () => {
    writeFileSync(path, '0123456789');
    expect(text(systemDisk.readNow(path))).toBe('0123456789');
    expect(() => systemDisk.readNow(folder)).toThrow(expect.objectContaining({ code: 'EISDIR' }) as Error);
    expect(text(await systemDisk.readStart(path, 3))).toBe('012');
  });

  test('a folder is refused as a folder before it is opened', async () => {
    await expect(systemDisk.read(folder)).rejects.toMatchObject({ code: 'EISDIR', message: 'EISDIR' });
    await expect(systemDisk.open(folder)).rejects.toMatchObject({ code: 'EISDIR', message: 'EISDIR' });
  });

  test('a pipe is no file, even one that takes the name while it is opened', async () => {
    const notOrdinary = { code: 'NOT_ORDINARY' };
    const pipe = join(folder, 'pipe');
    execFileSync('mkfifo', [pipe]);
    expect(() => systemDisk.readNow(pipe)).toThrow(expect.objectContaining(notOrdinary) as Error);
    await expect(systemDisk.read(pipe)).rejects.toMatchObject(notOrdinary);
    writeFileSync(path, 'x');
    bendPromised('open', (real, ...given) => {
      rmSync(path);
      execFileSync('mkfifo', [path]);
      return real(...given);
    });
    const before = readdirSync('/proc/self/fd').length;
    await expect(systemDisk.read(path)).rejects.toMatchObject(notOrdinary);
    expect(readdirSync('/proc/self/fd')).toHaveLength(before);
  });

  test('no file stays open, whatever happens', async () => {
    writeFileSync(path, 'x');
    const before = readdirSync('/proc/self/fd').length;
    for (let time = 0; time < 5; time++) {
      await systemDisk.read(path);
      systemDisk.readNow(path);
      await systemDisk.readEnd(path, 1);
      await systemDisk.replace(path, bytes('y'));
      await systemDisk.move([{ from: path, to: path }]);
      const file = await systemDisk.open(path);
      await file.close();
    }
    expect(readdirSync('/proc/self/fd')).toHaveLength(before);
  });
});

describe('[disk] the mark of a file', () => {
  test('is the same by name and once open, and differs for every other file and after every change', async () => {
    const file = await systemDisk.open(path);
    expect(file.mark()).toEqual(systemDisk.mark(path));
    const before = file.mark();
    expect(before).toMatchObject({ id: expect.stringMatching(/^\d+:\d+$/), length: 0 });
    await file.write(bytes('x'), 0);
    expect(file.mark()).toMatchObject({ id: before.id, length: 1 });
    chmodSync(path, 0o640);
    const { changed } = file.mark();
    expect(changed).toBeGreaterThan(before.changed);
    await systemDisk.replace(path, bytes('x'));
    expect(systemDisk.mark(path)!.id).not.toBe(before.id);
    expect(file.mark().id).toBe(before.id);
    await file.close();
  });

  test('leaves out the volume’s number on Windows, where it differs by name and once open', () => {
    writeFileSync(path, '');
    onPlatform('win32');
    expect(systemDisk.mark(path)!.id).toBe(String(statSync(path).ino));
  });

  test('has no number where the disk gives files none', () => {
    writeFileSync(path, '');
    bend('statSync', (real) => ({ ...real(path, { bigint: true }), ino: 0n }));
    expect(systemDisk.mark(path)).toMatchObject({ id: null, length: 0 });
  });

  test('is null without a file', () => {
    expect(systemDisk.mark(path)).toBeNull();
  });
});
