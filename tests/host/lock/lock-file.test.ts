/* The file of a lock by itself: whom it names, and that of several hosts only one makes it or takes it away. */

import { constants, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import {
  holderOf,
  lockText,
  makeLock,
  readLock,
  removeAbandoned,
  writeBeat,
  type Holder,
} from '../../../app/host/lock/lock-file.ts';
import { bend, failure, onPlatform } from '../../support/system/bent-system.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';

const HOLDER: Holder = { pid: 7, born: 'b 1', boot: 'b', space: 's', token: 't' };

let folder: string;
let path: string;

beforeEach(() => {
  folder = freshDataFolder();
  path = join(folder, 'host.lock');
});

const text = () => readFileSync(path, 'utf8');

describe('[lock] whom a lock names', () => {
  test('is its holder, with a beat of eight digits at the end', () => {
    expect(holderOf(lockText(HOLDER))).toEqual(HOLDER);
    expect(lockText(HOLDER)).toMatch(/,"beat":"00000000"\}$/);
    expect(JSON.parse(lockText(HOLDER))).toEqual({ ...HOLDER, beat: '00000000' });
  });

  test('is what an earlier program wrote, and no more', () => {
    const unsaid = { pid: 7, born: null, boot: '', space: null, token: '' };
    expect(holderOf('{"pid":7}')).toEqual(unsaid);
    expect(holderOf('{"pid":7,"born":1,"boot":2,"space":3,"token":4}')).toEqual(unsaid);
  });

  test.each(['', 'zz', 'null', '7', '{}', '{"pid":"7"}', '{"pid":7.5}', '{"pid":1e300}'])('%j names nobody', (said) => {
    expect(holderOf(said)).toBeNull();
  });
});

describe('[lock] reading a lock', () => {
  test('gives what stands there, or nothing without a file', () => {
    expect(readLock(path)).toBeNull();
    writeFileSync(path, 'zz');
    expect(readLock(path)).toBe('zz');
    const open = readdirSync('/proc/self/fd').length;
    readLock(path);
    expect(readdirSync('/proc/self/fd')).toHaveLength(open);
  });

  test.each([
    ['linux', constants.O_RDONLY | constants.O_NONBLOCK],
    ['win32', constants.O_RDONLY],
  ] as const)('without waiting for the other end of a pipe, on %s', (platform, expected) => {
    const flags: unknown[] = [];
    bend('openSync', (real, file, ...more) => {
      flags.push(more[0]);
      return real(file, ...more);
    });
    onPlatform(platform);
    readLock(path);
    expect(flags).toEqual([expected]);
  });

  test('fails with the disk’s reason', () => {
    writeFileSync(path, '');
    expect(() => readLock(join(path, 'below'))).toThrow('ENOTDIR');
    expect(() => readLock(folder)).toThrow('no file');
  });
});

describe.each([
  ['where files can be linked', () => undefined],
  [
    'where they cannot, as on memory cards',
    () =>
      bend('linkSync', () => {
        throw failure('EPERM');
      }),
  ],
])('[lock] %s', (_, bent) => {
  test('only one host makes the lock, and nothing else stays in the folder', () => {
    bent();
    expect(makeLock(path, 'mine', 't')).toBe(true);
    expect(makeLock(path, 'another', 'u')).toBe(false);
    expect(readdirSync(folder)).toEqual(['host.lock']);
    expect(text()).toBe('mine');
  });
});

describe('[lock] a disk that is full', () => {
  const full = (fits: (file: string) => boolean) =>
    bend('writeFileSync', (real, file, data, options) => {
      real(file, '', options);
      if (!fits(String(file))) throw failure('ENOSPC');
      real(file, data, { flag: 'w' });
    });

  test('leaves nothing in the folder', () => {
    full(() => false);
    expect(() => makeLock(path, 'mine', 't')).toThrow('ENOSPC');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('leaves no empty lock either where files cannot be linked', () => {
    bend('linkSync', () => {
      throw failure('EPERM');
    });
    full((file) => file !== path);
    expect(() => makeLock(path, 'mine', 't')).toThrow('ENOSPC');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('is the reason given, even if the unfinished file cannot be removed', () => {
    full(() => false);
    bend('rmSync', () => {
      throw failure('EIO');
    });
    expect(() => makeLock(path, 'mine', 't')).toThrow('ENOSPC');
  });
});

describe('[lock] an abandoned lock', () => {
  test('is removed if it is still the same; another lock is not even moved', () => {
    let moves = 0;
    bend('renameSync', (real, from, to) => {
      moves++;
      real(from, to);
    });
    writeFileSync(path, 'old');
    removeAbandoned(path, 'older', 't');
    expect([text(), moves]).toEqual(['old', 0]);
    removeAbandoned(path, 'old', 't');
    expect(readdirSync(folder)).toEqual([]);
    removeAbandoned(path, 'old', 't');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('that a faster host has meanwhile replaced by its own is put back', () => {
    writeFileSync(path, 'old');
    bend('renameSync', (real, from, to) => {
      writeFileSync(path, 'the faster one’s');
      real(from, to);
    });
    removeAbandoned(path, 'old', 't');
    expect(text()).toBe('the faster one’s');
    expect(readdirSync(folder)).toEqual(['host.lock']);
  });

  test('that vanishes once it was moved away is gone', () => {
    writeFileSync(path, 'old');
    bend('renameSync', (real, from, to) => {
      real(from, to);
      rmSync(to);
    });
    removeAbandoned(path, 'old', 't');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('that a faster host has already removed is no fault; a disk that refuses is', () => {
    let code = 'ENOENT';
    bend('renameSync', () => {
      throw failure(code);
    });
    writeFileSync(path, 'old');
    expect(() => removeAbandoned(path, 'old', 't')).not.toThrow();
    code = 'EROFS';
    expect(() => removeAbandoned(path, 'old', 't')).toThrow('EROFS');
  });
});

describe('[lock] a beat', () => {
  test('replaces the one before in place, and begins again after a hundred million', async () => {
    writeFileSync(path, lockText(HOLDER));
    for (const [beat, digits] of [
      [7, '00000007'],
      [12_345_678, '12345678'],
      [100_000_009, '00000009'],
    ] as const) {
      expect(await writeBeat(path, 't', beat)).toBe(true);
      expect(text()).toBe(lockText(HOLDER).replace('00000000', digits));
    }
    const open = readdirSync('/proc/self/fd').length;
    await writeBeat(path, 't', 1);
    expect(readdirSync('/proc/self/fd')).toHaveLength(open);
  });

  test('is not written into another host’s lock, nor without a lock', async () => {
    expect(await writeBeat(path, 't', 1)).toBe(false);
    expect(existsSync(path)).toBe(false);
    for (const other of [lockText({ ...HOLDER, token: 'u' }), 'zz']) {
      writeFileSync(path, other);
      expect(await writeBeat(path, 't', 1)).toBe(false);
      expect(text()).toBe(other);
    }
    await expect(writeBeat(join(path, 'below'), 't', 1)).rejects.toMatchObject({ code: 'ENOTDIR' });
  });
});
