/* A lock from its first beat to its end: it beats while it is held, is made late where it could not be, and goes. */

import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { BEAT_EVERY, LOOK_EVERY, lockToCome, takeHostLock, type HostLock } from '../../../app/host/lock/host-lock.ts';
import { holderOf, lockText } from '../../../app/host/lock/lock-file.ts';
import { systemFacts } from '../../../app/host/lock/process-facts.ts';
import { bend, failure } from '../../support/system/bent-system.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

let folder: string;
let path: string;
let clock: FakeClock;

beforeEach(() => {
  folder = freshDataFolder();
  path = join(folder, 'host.lock');
  clock = new FakeClock();
});

async function taken(): Promise<HostLock> {
  const answer = await takeHostLock(folder, clock.timers);
  if (!answer.ok) throw new Error('not taken');
  return answer.lock;
}

const beatIn = () => /"beat":"(\d+)"/.exec(readFileSync(path, 'utf8'))?.[1];
const other = lockText({ pid: 1, born: null, boot: 'b', space: null, token: 'other' });

describe('[lock] while it is held', () => {
  test('it beats once a second, each time one higher', async () => {
    const lock = await taken();
    expect(beatIn()).toBe('00000000');
    for (const beat of ['00000001', '00000002']) {
      clock.advance(BEAT_EVERY);
      await expect.poll(() => beatIn()).toBe(beat);
      await expect.poll(() => clock.pending).toBe(1);
    }
    lock.release();
    expect([existsSync(path), clock.pending]).toEqual([false, 0]);
  });

  test('a disk that refuses a beat gets the next one all the same', async () => {
    const lock = await taken();
    rmSync(path);
    mkdirSync(path);
    clock.advance(BEAT_EVERY);
    await expect.poll(() => clock.pending).toBe(1);
    rmSync(path, { recursive: true });
    clock.advance(BEAT_EVERY);
    await expect.poll(() => existsSync(path)).toBe(true);
    lock.release();
  });

  test('each listener hears of its loss once, a later listener at once, and it stops beating', async () => {
    const lock = await taken();
    let lost = 0;
    lock.onLost(() => lost++);
    writeFileSync(path, other);
    clock.advance(BEAT_EVERY);
    await expect.poll(() => lost).toBe(1);
    lock.onLost(() => lost++);
    expect(lost).toBe(2);
    await expect(lock.check()).rejects.toThrow('another Lanecall has the folder');
    expect([lost, clock.pending]).toEqual([2, 0]);
  });

  test('a lock that another host has moved away and put back is still ours', async () => {
    const lock = await taken();
    let reads = 0;
    bend('openSync', (real, ...args) => {
      if (args[0] === path && ++reads === 1) throw failure('ENOENT');
      return real(...args);
    });
    lock.checkNow();
    expect(reads).toBe(2);
    lock.release();
    expect(existsSync(path)).toBe(false);
  });

  test('a lock that is gone is lost, though the host that took it is gone as well', async () => {
    const lock = await taken();
    rmSync(path);
    bend('linkSync', () => {
      throw failure('EEXIST');
    });
    expect(() => lock.checkNow()).toThrow('another Lanecall has the folder');
    lock.release();
    expect(existsSync(path)).toBe(false);
  });

  test('a lock that somebody wrote by hand without a process takes nothing from us', async () => {
    const lock = await taken();
    writeFileSync(path, '{"pid":"x"}');
    lock.checkNow();
    expect(holderOf(readFileSync(path, 'utf8'))).toMatchObject({ pid: process.pid });
    lock.release();
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('[lock] when it is given up', () => {
  test('nothing may be written any more, and giving it up twice does no harm', async () => {
    const lock = await taken();
    lock.release();
    expect(() => lock.checkNow()).toThrow('another Lanecall has the folder');
    const next = await taken();
    lock.release();
    next.checkNow();
    next.release();
  });

  test('the lock of another host stays', async () => {
    const lock = await taken();
    writeFileSync(path, other);
    lock.release();
    expect(readFileSync(path, 'utf8')).toBe(other);
  });

  test('a lock that cannot be removed does not keep the program from ending', async () => {
    const lock = await taken();
    bend('rmSync', () => {
      throw failure('EROFS');
    });
    lock.release();
    expect(clock.pending).toBe(0);
  });
});

describe('[lock] where it cannot be taken', () => {
  test.each(['EACCES', 'EPERM'])('a lock that this user may not read (%s) is somebody else’s', async (code) => {
    writeFileSync(path, other);
    bend('openSync', () => {
      throw failure(code);
    });
    expect(await takeHostLock(folder, clock.timers)).toEqual({ ok: false, pid: null });
  });

  test('others take it again and again: after twenty tries it is left to them', async () => {
    let turn = 0;
    bend('openSync', (real, ...args) => {
      if (String(args[0]) === path) writeFileSync(path, lockText({ ...holderOf(other)!, token: `t${turn++}` }));
      return real(...args);
    });
    let answer: unknown = null;
    void takeHostLock(folder, clock.timers).then((given) => (answer = given));
    let waits = 0;
    for (; answer === null && waits < 100; waits++) {
      clock.advance(LOOK_EVERY);
      await new Promise((resolve) => setImmediate(resolve));
    }
    expect(answer).toEqual({ ok: false, pid: null });
    expect(turn).toBe(40);
  });

  test('the disk refuses: it is made as soon as the disk accepts it, unless another host was first', async () => {
    const folderToCome = join(folder, 'later');
    writeFileSync(folderToCome, 'a file in place of the folder');
    const lock = lockToCome(folderToCome, clock.timers);
    clock.advance(BEAT_EVERY);
    await expect.poll(() => clock.pending).toBe(1);
    rmSync(folderToCome);
    clock.advance(BEAT_EVERY);
    await expect.poll(() => existsSync(join(folderToCome, 'host.lock'))).toBe(true);
    expect(holderOf(readFileSync(join(folderToCome, 'host.lock'), 'utf8'))).toMatchObject({
      pid: process.pid,
      boot: systemFacts().boot,
      space: systemFacts().space,
    });
    lock.release();
  });
});
