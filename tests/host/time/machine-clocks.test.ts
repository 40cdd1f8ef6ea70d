/* How the host reads a machine's clocks: which readings it believes, what it adds after a sleep, and what a screen measures anew. */

import { afterEach, describe, expect, test, vi } from 'vitest';
import { systemClock, takeSample, timeOfDayAt, type MachineClocks } from '../../../app/host/time/clock.ts';

const os = vi.hoisted(() => ({ uptime: 1000 }));

vi.mock('node:os', () => ({ uptime: () => os.uptime }));

/** A machine on Linux whose clocks go on when told; reading one takes `pause` ms. */
class Machine implements MachineClocks {
  readonly linux = true;
  time = 10_000;
  slept = 0;
  set = 0;
  pause = 0;
  reads = 0;

  monotonic = (): number => this.read() - this.slept;
  uptime = (): number => this.read();
  wall = (): number => 1_700_000_000_000 + this.read() + this.set;

  sleep(ms: number): void {
    this.time += ms;
    this.slept += ms;
  }

  private read(): number {
    if (++this.reads > 200) throw new Error('read without an end');
    this.time += this.pause;
    return this.time;
  }
}

describe('[clock] a sample', () => {
  /** Clocks of which the reading of a sample takes so many ms, one after the other. */
  function pausing(...widths: readonly number[]) {
    let now = 0;
    let sample = -1;
    const clocks: MachineClocks = {
      linux: true,
      monotonic: () => now,
      uptime: () => {
        now += widths[++sample] ?? 1000;
        return sample;
      },
      wall: () => sample,
    };
    return { clocks, samples: () => sample + 1 };
  }

  test('of clocks that were read within a millisecond is taken as it is', () => {
    const { clocks, samples } = pausing(1);
    expect(takeSample(clocks)).toMatchObject({ width: 1, uptime: 0 });
    expect(samples()).toBe(1);
  });

  test('of a process that is paused is the tightest of five', () => {
    const { clocks, samples } = pausing(400, 300, 20, 500, 30, 1);
    expect(takeSample(clocks)).toEqual({ monotonic: 720, uptime: 2, wall: 2, width: 20 });
    expect(samples()).toBe(5);
  });
});

describe('[clock] a machine that slept', () => {
  test('host time goes on by the time slept, and screens are told to measure anew', () => {
    const machine = new Machine();
    const clock = systemClock(machine);
    const [before, epoch] = [clock.now(), clock.epoch()];
    machine.sleep(60_000);
    clock.check();
    expect(clock.now() - before).toBe(60_000);
    expect(clock.epoch()).toMatch(/./);
    expect(clock.epoch()).not.toBe(epoch);
  });

  test('is not believed by clocks that were read too far apart: the next look finds it', () => {
    const machine = new Machine();
    const clock = systemClock(machine);
    const jumps: unknown[] = [];
    clock.onJump(({ slept }) => jumps.push(Math.round(slept / 1000)));
    machine.sleep(60_000);
    // Three readings lie between the two of the monotonic clock.
    machine.pause = 60;
    clock.check();
    expect(jumps).toEqual([]);
    machine.pause = 0;
    clock.check();
    expect(jumps).toEqual([60]);
  });

  test('a wall clock that was set moves no host time, and screens keep what they measured', () => {
    const machine = new Machine();
    const clock = systemClock(machine);
    const jumps: unknown[] = [];
    const stop = clock.onJump((jump) => jumps.push(jump));
    const [before, epoch] = [clock.now(), clock.epoch()];
    machine.set = 90_000;
    clock.check();
    expect([clock.now() - before, clock.epoch()]).toEqual([0, epoch]);
    expect(jumps).toEqual([{ slept: 0, missed: 0, wallStep: 90_000 }]);
    stop();
    machine.set = 0;
    clock.check();
    expect(jumps).toHaveLength(1);
  });
});

describe('[clock] the clocks of this machine', () => {
  const platform = Object.getOwnPropertyDescriptor(process, 'platform')!;

  afterEach(() => {
    Object.defineProperty(process, 'platform', platform);
    os.uptime = 1000;
  });

  /** What a clock on that platform makes of an uptime that has gone on by a minute. */
  async function minuteOn(name: string): Promise<readonly number[]> {
    Object.defineProperty(process, 'platform', { ...platform, value: name });
    vi.resetModules();
    const fresh = await import('../../../app/host/time/clock.ts');
    const clock = fresh.systemClock();
    const slept: number[] = [];
    clock.onJump((jump) => slept.push(Math.round(jump.slept / 1000)));
    os.uptime += 60;
    clock.check();
    return slept;
  }

  test('on Linux the uptime, in seconds, tells of a sleep; elsewhere it does not', async () => {
    expect(await minuteOn('linux')).toEqual([60]);
    expect(await minuteOn('darwin')).toEqual([]);
  });

  test('the time of day is the local one, to the millisecond', () => {
    vi.useFakeTimers({ now: new Date(2026, 10, 26, 19, 30, 41, 250), toFake: ['Date'] });
    const wall = systemClock().wall();
    vi.useRealTimers();
    expect(wall).toEqual({
      epochMs: new Date(2026, 10, 26, 19, 30, 41, 250).getTime(),
      timeOfDay: ((19 * 60 + 30) * 60 + 41) * 1000 + 250,
    });
  });

  test('the monotonic one is in milliseconds', () => {
    const read = (): number => Number(process.hrtime.bigint()) / 1e6;
    const before = read();
    const { monotonic } = systemClock().instant();
    expect(monotonic).toBeGreaterThanOrEqual(before - 0.001);
    expect(monotonic).toBeLessThanOrEqual(read() + 0.001);
  });
});

describe('[clock] the time of day at another moment', () => {
  const NOON = { epochMs: 1_700_000_000_000, timeOfDay: 12 * 3_600_000 };
  const at = (ms: number): number => timeOfDayAt({ wallMs: NOON.epochMs + ms }, NOON);

  test('is that of the reading and what lies between, past midnight and before it too', () => {
    expect([at(0), at(1234), at(-1234)]).toEqual([43_200_000, 43_201_234, 43_198_766]);
    expect([at(12 * 3_600_000), at(13 * 3_600_000), at(-13 * 3_600_000)]).toEqual([0, 3_600_000, 23 * 3_600_000]);
    expect(at(-12 * 3_600_000)).toBe(0);
  });
});
