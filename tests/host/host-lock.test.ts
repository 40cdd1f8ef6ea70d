/* The lock of a data folder on a real disk, where that folder is, and the names of machine starts. */

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { bootByTime, isSameBoot, thisBoot } from '../../app/host/boot.ts';
import { dataFolder } from '../../app/host/data-folder.ts';
import { birthOf, takeHostLock } from '../../app/host/host-lock.ts';
import { freshDataFolder } from '../support/data-folder.ts';

const lockIn = (folder: string) => join(folder, 'host.lock');

describe('[lock] one host on a data folder', () => {
  test('the second is told who has it; a folder given up is free', () => {
    const folder = freshDataFolder();
    const first = takeHostLock(folder);
    if (!first.ok) throw new Error('a fresh folder was taken');
    expect(takeHostLock(folder)).toEqual({ ok: false, pid: process.pid });
    first.release();
    expect(readdirSync(folder)).toEqual([]);
    expect(takeHostLock(folder).ok).toBe(true);
  });

  test.each([
    ['of a process that is gone', JSON.stringify({ pid: 2 ** 30, born: null })],
    ['of an earlier process of the same number', JSON.stringify({ pid: process.pid, born: 'another boot 123' })],
    ['that names nobody', '{}'],
    ['that is empty', ''],
  ])('a lock %s is abandoned, and taken', (_, content) => {
    const folder = freshDataFolder();
    writeFileSync(lockIn(folder), content);
    expect(takeHostLock(folder).ok).toBe(true);
    expect(readdirSync(folder)).toEqual(['host.lock']);
  });

  test('on a disk that refuses every new file the host at work there is seen all the same, and nothing is left behind', () => {
    const folder = freshDataFolder();
    // What it would be written to first is taken.
    mkdirSync(`${lockIn(folder)}.${process.pid}`);
    expect(() => takeHostLock(folder)).toThrow('EISDIR');
    expect(readdirSync(folder)).toEqual([`host.lock.${process.pid}`]);
    writeFileSync(lockIn(folder), JSON.stringify({ pid: 1, born: null }));
    expect(takeHostLock(folder)).toEqual({ ok: false, pid: 1 });
  });

  test('a process that was killed and waits to be collected has none', async () => {
    const child = spawn('sh', ['-c', 'sleep 60 & echo $!; exec sleep 60'], { stdio: ['ignore', 'pipe', 'ignore'] });
    const [printed] = (await once(child.stdout, 'data')) as [Buffer];
    const pid = Number(printed.toString());
    expect(birthOf(pid)).not.toBeNull();
    process.kill(pid, 'SIGKILL');
    // Its parent has become a sleep, and collects nothing.
    await expect.poll(() => birthOf(pid)).toBeNull();
    child.kill('SIGKILL');
  });

  test('a lock that was taken over is not given up by the one before', () => {
    const folder = freshDataFolder();
    const lock = takeHostLock(folder);
    writeFileSync(lockIn(folder), JSON.stringify({ pid: 1, born: null }));
    if (lock.ok) lock.release();
    expect(takeHostLock(folder)).toEqual({ ok: false, pid: 1 });
  });
});

describe('[data folder]', () => {
  test.each([
    ['linux', { XDG_DATA_HOME: '/x' }, '/x/lanecall'],
    ['linux', { XDG_DATA_HOME: 'relative' }, '/home/me/.local/share/lanecall'],
    ['linux', {}, '/home/me/.local/share/lanecall'],
    ['darwin', {}, '/home/me/Library/Application Support/lanecall'],
    ['darwin', { XDG_DATA_HOME: '/x' }, '/x/lanecall'],
    ['win32', { LOCALAPPDATA: '/local' }, '/local/lanecall'],
  ] as const)('%s with %j: %s', (platform, env, expected) => {
    expect(dataFolder({ platform, env, home: '/home/me' })).toBe(expected);
  });
});

describe('[boot] which start of the machine', () => {
  test('this one is the same each time it is asked for', () => {
    expect(isSameBoot(thisBoot(), thisBoot())).toBe(true);
  });

  test.each([
    ['names that agree', 'a', 'a', true],
    ['names that do not', 'a', 'b', false],
    ['times a slewed clock apart', bootByTime(1_700_000_000_000, 5000), bootByTime(1_700_000_999_000, 1_000_000), true],
    ['times of two starts', bootByTime(1_700_000_000_000, 5000), bootByTime(1_700_000_999_000, 5000), false],
    ['a name and a time', 'a', bootByTime(1, 1), false],
  ])('%s', (_, one, other, same) => {
    expect(isSameBoot(one, other)).toBe(same);
  });
});
