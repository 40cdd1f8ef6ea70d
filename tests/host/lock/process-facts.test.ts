/* What the system says of processes and of its start, here and on systems that say less. */

import { spawnSync } from 'node:child_process';
import { hostname, uptime } from 'node:os';
import { describe, expect, onTestFinished, test } from 'vitest';
import { thisBoot } from '../../../app/host/lock/boot.ts';
import { birthOf, systemFacts } from '../../../app/host/lock/process-facts.ts';
import { bend, failure, onPlatform } from '../../support/system/bent-system.ts';

const fails = (code: string) => (): never => {
  throw failure(code);
};

describe('[lock] when a process began', () => {
  test('is the start of the machine and a time in it, whatever the process is called', () => {
    const born = birthOf(process.pid)!;
    expect(born.startsWith(`${thisBoot()} `)).toBe(true);
    const ticks = Number(born.slice(thisBoot().length + 1));
    // A hundred ticks a second.
    expect(Math.abs(ticks / 100 - (uptime() - process.uptime()))).toBeLessThan(30);
    const { title } = process;
    onTestFinished(() => void (process.title = title));
    process.title = 'x) Z 1 2';
    expect(birthOf(process.pid)).toBe(born);
  });

  test('is unknown without such a process', () => {
    expect(birthOf(2 ** 30)).toBeNull();
  });
});

describe('[lock] whether a process runs', () => {
  test('is asked of the system, also for another user’s process', () => {
    const { isRunning } = systemFacts();
    expect(isRunning(process.pid)).toBe(true);
    expect(isRunning(spawnSync('true').pid)).toBe(false);
    const { kill } = process;
    onTestFinished(() => void (process.kill = kill));
    process.kill = fails('EPERM');
    expect(isRunning(process.pid)).toBe(true);
  });
});

describe('[lock] the list of processes', () => {
  test('has a name on Linux, and is unknown if that cannot be read', () => {
    expect(systemFacts()).toMatchObject({
      pid: process.pid,
      boot: thisBoot(),
      space: expect.stringMatching(/^pid:\[/),
    });
    bend('readlinkSync', fails('EACCES'));
    expect(systemFacts().space).toBeNull();
  });

  test('is the same for the whole machine elsewhere', () => {
    onPlatform('darwin');
    expect(systemFacts().space).toBe(hostname());
  });
});

test('[boot] a start without a name is known by its time', () => {
  const named = thisBoot();
  expect(named).toMatch(/^\S+$/);
  bend('readFileSync', fails('ENOENT'));
  const [, time] = /^since (\d+)$/.exec(thisBoot())!;
  expect(Math.abs(Number(time) - (Date.now() - uptime() * 1000))).toBeLessThan(2000);
});
