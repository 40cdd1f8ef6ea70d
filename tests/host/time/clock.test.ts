/* The clock's judgement of what happened between two looks, and the real clock as far as it can be seen. */

import { describe, expect, test } from 'vitest';
import { jumpBetween, systemClock, type Jump, type MachineClocks, type Sample } from '../../../app/host/time/clock.ts';

const before: Sample = { monotonic: 5000, wall: 1_700_000_000_000, uptime: 9000 };

function after(monotonic: number, wall: number, uptime: number): Sample {
  return { monotonic: 5000 + monotonic, wall: 1_700_000_000_000 + wall, uptime: 9000 + uptime };
}

describe('[clock] on Linux, whose monotonic clock stops in sleep', () => {
  test.each([
    ['an ordinary wake-up', after(250, 250, 250), null],
    ['the steps of the uptime', after(250, 250, 270), null],
    ['a busy machine: everything is late together', after(9000, 9000, 9000), null],
    ['a gap of just a quarter of a second is not yet sleep', after(250, 500, 500), null],
    ['a closed lid', after(250, 600_250, 600_250), { slept: 600_000, missed: 600_000, wallStep: 0 }],
    ['a closed lid of a third of a second', after(250, 550, 550), { slept: 300, missed: 300, wallStep: 0 }],
    [
      'the wall clock set back an hour',
      after(250, 250 - 3_600_000, 250),
      { slept: 0, missed: 0, wallStep: -3_600_000 },
    ],
    ['the wall clock set forward', after(250, 90_250, 250), { slept: 0, missed: 0, wallStep: 90_000 }],
    ['the wall clock slewed by less than a second', after(250, 1240, 250), null],
    ['the wall clock off by a second is not yet set', after(250, 1250, 250), null],
    ['both at once', after(250, 20_250, 10_250), { slept: 10_000, missed: 10_000, wallStep: 10_000 }],
  ])('%s', (_, sample, jump) => {
    expect(jumpBetween(before, sample, true)).toEqual(jump);
  });
});

describe('[clock] elsewhere, where the monotonic clock goes on in sleep', () => {
  test.each([
    ['an ordinary wake-up; the uptime is of no use', after(250, 250, 1000), null],
    ['a silence of two seconds is not yet sleep', after(2000, 2000, 2000), null],
    [
      'a long silence is a label, and nothing is added',
      after(60_000, 60_000, 60_000),
      { slept: 60_000, missed: 0, wallStep: 0 },
    ],
    ['the uptime moves with the wall clock', after(250, 90_250, 90_250), { slept: 0, missed: 0, wallStep: 90_000 }],
  ])('%s', (_, sample, jump) => {
    expect(jumpBetween(before, sample, false)).toEqual(jump);
  });
});

/** A machine whose clocks agree, and on which the process is paused before the readings that a test says. */
class PausingMachine implements MachineClocks {
  readonly linux = true;
  time = 1_000_000;
  reads = 0;
  /** How long the process is paused before each reading, by its number from now on, in ms. */
  pauses = new Map<number, number>();

  monotonic = (): number => this.read();
  wall = (): number => 1_700_000_000_000 + this.read();
  uptime = (): number => 5000 + this.read();

  private read(): number {
    this.time += (this.pauses.get(this.reads++) ?? 0) + 0.002;
    return this.time;
  }
}

describe('[clock] a process that is paused while it reads its clocks', () => {
  function watched() {
    const machine = new PausingMachine();
    const clock = systemClock(machine);
    const jumps: Jump[] = [];
    clock.onJump((jump) => jumps.push(jump));
    return { machine, clock, jumps, ahead: () => clock.now() - machine.time };
  }

  test.each([0, 1, 2, 3, 4])('before its reading %i: no sleep is made of it, and host time stays', (reading) => {
    const { machine, clock, jumps, ahead } = watched();
    for (let look = 0; look < 3; look++) {
      machine.pauses = new Map([[machine.reads + reading, 5000]]);
      clock.check();
      machine.time += 250;
      clock.check();
    }
    expect(jumps).toEqual([]);
    expect(Math.abs(ahead())).toBeLessThan(1);
  });

  test('in the middle of every sample of a look: that look is left out, and the next one sees what there is', () => {
    const { machine, clock, jumps, ahead } = watched();
    machine.pauses = new Map(Array.from({ length: 20 }, (_, index) => [machine.reads + index, 400] as const));
    clock.check();
    machine.pauses.clear();
    clock.check();
    expect(jumps).toEqual([]);
    expect(Math.abs(ahead())).toBeLessThan(1);
  });

  test('a moment has all clocks of one time, and so has the very first', () => {
    const machine = new PausingMachine();
    machine.pauses = new Map([
      [1, 3000],
      [2, 2000],
    ]);
    const clock = systemClock(machine);
    machine.pauses = new Map([[machine.reads + 2, 700]]);
    const { monotonic, wallMs, uptime } = clock.instant();
    expect(Math.abs(wallMs - 1_700_000_000_000 - monotonic)).toBeLessThan(1);
    expect(Math.abs(uptime - 5000 - monotonic)).toBeLessThan(1);
    clock.check();
    expect(Math.abs(clock.now() - machine.time)).toBeLessThan(1);
  });

  test('a sleep is still noticed, to the full', () => {
    const { machine, clock, jumps } = watched();
    const uptime = machine.uptime;
    machine.uptime = () => uptime() + 60_000;
    clock.check();
    expect(jumps).toMatchObject([{ slept: expect.closeTo(60_000, 0) as number }]);
  });
});

describe('[clock] the machine’s own', () => {
  test('never goes back, and a look at an ordinary moment moves nothing', () => {
    const clock = systemClock();
    const jumps: unknown[] = [];
    clock.onJump((jump) => jumps.push(jump));
    const epoch = clock.epoch();
    let last = clock.now();
    for (let look = 0; look < 200; look++) {
      clock.check();
      const now = clock.now();
      expect(now).toBeGreaterThanOrEqual(last);
      last = now;
    }
    expect(jumps).toEqual([]);
    expect(clock.epoch()).toBe(epoch);
  });

  test('is finer than a millisecond', () => {
    const clock = systemClock();
    expect(Array.from({ length: 50 }, () => clock.now()).some((now) => now % 1 !== 0)).toBe(true);
  });

  test('time of day is that of the machine', () => {
    const { epochMs, timeOfDay } = systemClock().wall();
    const date = new Date(epochMs);
    expect(new Date(date.getFullYear(), date.getMonth(), date.getDate(), 0, 0, 0, timeOfDay).getTime()).toBe(epochMs);
  });
});
