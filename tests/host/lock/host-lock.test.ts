/* The lock of a data folder on a real disk, where that folder is, and the names of machine starts. */

import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { bootByTime, isSameBoot, thisBoot } from '../../../app/host/lock/boot.ts';
import { dataFolder, runsFolder } from '../../../app/host/lock/data-folder.ts';
import {
  BEAT_EVERY,
  LOOK_EVERY,
  LOOKS,
  takeHostLock,
  type HostLock,
  type LockTaken,
} from '../../../app/host/lock/host-lock.ts';
import { birthOf, systemFacts, type ProcessFacts } from '../../../app/host/lock/process-facts.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

const lockIn = (folder: string) => join(folder, 'host.lock');

const HERE = systemFacts();

/** Another list of processes, in which nobody of this one can be seen. */
const ELSEWHERE: ProcessFacts = {
  pid: 1,
  boot: HERE.boot,
  space: 'pid:[1]',
  birthOf: () => null,
  isRunning: () => false,
};

/** A host on a folder, whose time passes as a test says. */
class Host {
  readonly clock = new FakeClock();
  lost = 0;
  lock: HostLock | null = null;
  private readonly folder: string;
  private readonly facts: ProcessFacts;

  constructor(folder: string, facts = HERE) {
    this.folder = folder;
    this.facts = facts;
  }

  async take(): Promise<LockTaken> {
    const taken = await takeHostLock(this.folder, this.clock.timers, this.facts);
    if (!taken.ok) return taken;
    this.lock = taken.lock;
    taken.lock.onLost(() => this.lost++);
    hosts.push(this);
    return taken;
  }

  /** Some time passes, with what is done on the disk meanwhile. */
  async pass(ms: number): Promise<void> {
    this.clock.advance(ms);
    // A beat is a few calls on a real disk, and the next one is set when it is done.
    const beats = (): boolean => this.lock !== null && this.clock.pending === 0 && this.lost === 0;
    for (let turn = 0; turn < 12 || (beats() && turn < 100_000); turn++) {
      await new Promise((resolve) => setImmediate(resolve));
    }
    await (this.lock && this.lock.check().catch(() => undefined));
  }
}

const hosts: Host[] = [];

afterEach(() => {
  for (const { lock } of hosts.splice(0)) lock?.release();
});

/** What a host gets that waits for the lock; the one that has it goes on meanwhile, where it is there. */
async function waitedFor(waiting: Host, there: Host | null): Promise<LockTaken> {
  let taken: LockTaken | null = null;
  const taking = waiting.take().then((answer) => (taken = answer));
  for (let time = 0; taken === null && time <= LOOKS * LOOK_EVERY; time += LOOK_EVERY) {
    await there?.pass(LOOK_EVERY);
    await waiting.pass(LOOK_EVERY);
  }
  return taken ?? taking;
}

describe('[lock] one host on a data folder', () => {
  test('a second host is told at once who has it; after the first ends, the folder is free', async () => {
    const folder = freshDataFolder();
    const first = new Host(folder);
    await first.take();
    expect(await new Host(folder).take()).toEqual({ ok: false, pid: process.pid });
    first.lock!.release();
    expect(readdirSync(folder)).toEqual([]);
    expect(await new Host(folder).take()).toMatchObject({ ok: true, silent: false });
  });

  test.each([
    ['of a process that is gone', { pid: 2 ** 30, born: null }],
    ['of an earlier process of the same number', { pid: process.pid, born: `${HERE.boot} 1` }],
  ])('a lock %s, on this start of the machine, is taken at once', async (_, who) => {
    const folder = freshDataFolder();
    writeFileSync(lockIn(folder), JSON.stringify({ ...who, boot: HERE.boot, space: HERE.space, token: 't' }));
    expect(await new Host(folder).take()).toMatchObject({ ok: true, silent: false });
    expect(readdirSync(folder)).toEqual(['host.lock']);
  });

  test.each([
    [
      'of another start of the machine',
      JSON.stringify({ pid: 1, born: 'b 1', boot: 'b', space: HERE.space, token: 't' }),
    ],
    [
      'from before a power cut, where the system names no start and some process has its number by now',
      JSON.stringify({ pid: process.pid, born: null, boot: bootByTime(1, 0), space: HERE.space, token: 't' }),
    ],
    [
      'of another list of processes',
      JSON.stringify({ pid: 1, born: null, boot: HERE.boot, space: 'other', token: 't' }),
    ],
    [
      'of a process that began when this one did, in another list of processes',
      JSON.stringify({ pid: process.pid, born: birthOf(process.pid), boot: HERE.boot, space: 'other', token: 't' }),
    ],
    [
      'of a process of which the system says no more than that it runs',
      JSON.stringify({ pid: process.pid, born: null, boot: HERE.boot, space: HERE.space, token: 't' }),
    ],
    ['of a program that had no beats', JSON.stringify({ pid: 1, born: 'another boot 123' })],
    ['that names nobody', '{}'],
    ['that is empty', ''],
  ])('a lock %s is taken after six seconds without a beat, and not earlier', async (_, content) => {
    const folder = freshDataFolder();
    writeFileSync(lockIn(folder), content);
    const host = new Host(folder);
    const taking = host.take();
    await host.pass(0);
    for (let look = 1; look < LOOKS; look++) await host.pass(LOOK_EVERY);
    expect(readFileSync(lockIn(folder), 'utf8')).toBe(content);
    await host.pass(LOOK_EVERY);
    expect(await taking).toMatchObject({ ok: true, silent: true });
    expect(LOOKS * LOOK_EVERY).toBe(6000);
    expect(readdirSync(folder)).toEqual(['host.lock']);
  });

  test('where the system does not name its process list, a lock whose process is not seen is watched all the same', async () => {
    const folder = freshDataFolder();
    const content = JSON.stringify({ pid: 2 ** 30, born: null, boot: HERE.boot, space: null, token: 't' });
    writeFileSync(lockIn(folder), content);
    const host = new Host(folder, { ...HERE, space: null });
    const taking = host.take();
    await host.pass((LOOKS - 1) * LOOK_EVERY);
    expect(readFileSync(lockIn(folder), 'utf8')).toBe(content);
    for (let look = 0; look < LOOKS; look++) await host.pass(LOOK_EVERY);
    expect(await taking).toMatchObject({ ok: true, silent: true });
  });

  test.each([
    ['in another list of processes', ELSEWHERE],
    ['on another machine', { ...ELSEWHERE, boot: 'another', space: HERE.space }],
    ['on a system that says nothing of processes', { ...ELSEWHERE, space: null }],
    ['where the machine has a process of its number', { ...ELSEWHERE, isRunning: () => true }],
  ])('a host %s sees the lock beat, and keeps out', async (_, facts) => {
    const folder = freshDataFolder();
    const first = new Host(folder);
    await first.take();
    expect(await waitedFor(new Host(folder, facts), first)).toEqual({ ok: false, pid: process.pid });
    await first.lock!.check();
    expect(first.lost).toBe(0);
  });

  test.each([
    ['written over by hand', 'zz'],
    ['taken by another', JSON.stringify({ pid: 1, born: null, boot: 'b', space: null, token: 'u' })],
    ['removed', null],
  ])('a lock that is %s while it is watched has not beaten: watching begins again', async (_, by) => {
    const folder = freshDataFolder();
    writeFileSync(lockIn(folder), JSON.stringify({ pid: 1, born: null, boot: 'b', space: null, token: 't' }));
    const host = new Host(folder);
    const taking = host.take();
    await host.pass(LOOK_EVERY);
    if (by === null) rmSync(lockIn(folder));
    else writeFileSync(lockIn(folder), by);
    for (let look = 0; look <= LOOKS; look++) await host.pass(LOOK_EVERY);
    expect(await taking).toMatchObject({ ok: true, silent: by !== null });
  });

  test('of two hosts that wait for the same silent lock one gets it', async () => {
    const folder = freshDataFolder();
    writeFileSync(lockIn(folder), '{}');
    const both = [new Host(folder), new Host(folder, ELSEWHERE)];
    const taking = Promise.all(both.map((host) => host.take()));
    for (let look = 0; look < 4 * LOOKS; look++) for (const host of both) await host.pass(LOOK_EVERY);
    expect((await taking).map(({ ok }) => ok).sort()).toEqual([false, true]);
  });

  test('on a disk that refuses every new file, a host at work there is seen all the same, and nothing is left behind', async () => {
    const folder = freshDataFolder();
    const { timers } = new FakeClock();
    // What it would be written to first is taken.
    mkdirSync(`${lockIn(folder)}.mine`);
    await expect(takeHostLock(folder, timers, HERE, 'mine')).rejects.toThrow('EISDIR');
    expect(readdirSync(folder)).toEqual(['host.lock.mine']);
    const { pid } = process;
    writeFileSync(lockIn(folder), JSON.stringify({ pid, born: birthOf(pid) }));
    expect(await takeHostLock(folder, timers, HERE, 'mine')).toEqual({ ok: false, pid });
  });

  test('a pipe in place of the lock is no lock, and does not hold up the start', async () => {
    const folder = freshDataFolder();
    execFileSync('mkfifo', [lockIn(folder)]);
    await expect(new Host(folder).take()).rejects.toMatchObject({ code: 'NOT_ORDINARY' });
  });

  test('a killed process that still waits to be collected has no lock', async () => {
    const child = spawn('sh', ['-c', 'sleep 60 & echo $!; exec sleep 60'], { stdio: ['ignore', 'pipe', 'ignore'] });
    const [printed] = (await once(child.stdout, 'data')) as [Buffer];
    const pid = Number(printed.toString());
    expect(birthOf(pid)).not.toBeNull();
    process.kill(pid, 'SIGKILL');
    // Its parent has become a sleep, and collects nothing.
    await expect.poll(() => birthOf(pid)).toBeNull();
    child.kill('SIGKILL');
  });
});

describe('[lock] a host that was paused and goes on', () => {
  /** A host that is stopped, while another takes its lock. */
  async function overtaken() {
    const folder = freshDataFolder();
    const first = new Host(folder);
    await first.take();
    const second = new Host(folder, ELSEWHERE);
    expect(await waitedFor(second, null)).toMatchObject({ ok: true, silent: true });
    return { folder, first, second };
  }

  test('notices before it writes anything that it lost the lock, hears it once, and does not take it back', async () => {
    const { folder, first, second } = await overtaken();
    expect(first.lost).toBe(0);
    await expect(first.lock!.check()).rejects.toThrow('another Lanecall has the folder');
    expect(() => first.lock!.checkNow()).toThrow('another Lanecall has the folder');
    expect(first.lost).toBe(1);
    await second.lock!.check();
    first.lock!.release();
    await second.lock!.check();
    // When the other has gone it is still not the one that may write: what it has in mind is old.
    second.lock!.release();
    await expect(first.lock!.check()).rejects.toThrow('another Lanecall has the folder');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('notices at its next beat, and leaves the beat of the other alone', async () => {
    const { folder, first } = await overtaken();
    const before = readFileSync(lockIn(folder), 'utf8');
    first.clock.advance(BEAT_EVERY);
    await expect.poll(() => first.lost).toBe(1);
    expect(readFileSync(lockIn(folder), 'utf8')).toBe(before);
  });

  test('makes the lock again if somebody wrote over its file', async () => {
    const folder = freshDataFolder();
    const host = new Host(folder);
    await host.take();
    const mine = readFileSync(lockIn(folder), 'utf8');
    writeFileSync(lockIn(folder), 'zz');
    await host.lock!.check();
    expect(host.lost).toBe(0);
    expect(JSON.parse(readFileSync(lockIn(folder), 'utf8'))).toMatchObject({
      token: (JSON.parse(mine) as { token: string }).token,
    });
  });

  test('keeps the lock if nobody has taken it', async () => {
    const folder = freshDataFolder();
    const first = new Host(folder);
    await first.take();
    first.clock.stall(3_600_000);
    await first.pass(BEAT_EVERY);
    await first.lock!.check();
    expect(first.lost).toBe(0);
  });

  test.each([
    ['a lock that was removed', (folder: string) => rmSync(lockIn(folder))],
    ['a folder that was removed', (folder: string) => rmSync(folder, { recursive: true })],
    ['a folder that was moved', (folder: string) => renameSync(folder, `${folder}.moved`)],
  ])('makes the lock again: %s belongs to nobody else', async (_, harm) => {
    const folder = freshDataFolder();
    const first = new Host(folder);
    await first.take();
    harm(folder);
    await first.lock!.check();
    expect(first.lost).toBe(0);
    expect(await new Host(folder).take()).toEqual({ ok: false, pid: process.pid });
    rmSync(`${folder}.moved`, { recursive: true, force: true });
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
    ['win32', {}, '/home/me/AppData/Local/lanecall'],
  ] as const)('%s with %j: %s', (platform, env, expected) => {
    expect(dataFolder({ platform, env, home: '/home/me' })).toBe(expected);
  });

  test('the records have a folder of their own in it', () => {
    expect(runsFolder('/x/lanecall')).toBe('/x/lanecall/runs');
  });
});

describe('[boot] which start of the machine', () => {
  test('this start is the same each time it is asked for', () => {
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
