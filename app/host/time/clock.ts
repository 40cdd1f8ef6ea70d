/*
 * The one clock that the host goes by: monotonic, in ms, unaffected by changes of the wall clock, and running on while
 * the lid is closed. Linux stops its monotonic clock while the machine sleeps; the time slept is found from the
 * uptime, which does not stop, and added.
 */

import { randomUUID } from 'node:crypto';
import { uptime } from 'node:os';
import { DAY, type Millis } from '../../core/units.ts';

export interface Clock {
  /** Host time in ms, with a fraction; never decreasing. Its zero has no meaning. */
  now(): number;
  /** The local time of day: for labels and for the phase of a run, never for measuring. */
  wall(): WallTime;
  /** Now, on the host's clock and on the machine's. */
  instant(): ClockInstant;
  /** Checks whether the machine slept or the wall clock was set since the last check; cheap enough for every wake-up. */
  check(): void;
  /** Changes when host time has begun again or has jumped: what screens have measured before is then void. */
  epoch(): string;
  /** Calls back after `check` has found something; the returned function stops that. */
  onJump(listener: (jump: Jump) => void): () => void;
}

export interface WallTime {
  /** Milliseconds since 1970, UTC. */
  readonly epochMs: number;
  /** Local, in ms after midnight. */
  readonly timeOfDay: Millis;
}

/** One moment on the host's clock, and on the machine's clocks, which outlive the process. In ms. */
export interface ClockInstant {
  readonly hostTime: number;
  /** Since 1970, UTC. */
  readonly wallMs: number;
  /** As in `Sample`. */
  readonly monotonic: number;
  readonly uptime: number;
}

/** What happened between two checks; each in ms, 0 if it did not happen. */
export interface Jump {
  /** How long the machine slept. */
  readonly slept: number;
  /** How much of that the monotonic clock missed; host time has been moved on by as much. */
  readonly missed: number;
  /** How far the wall clock was set forward, or back (negative); never moves host time. */
  readonly wallStep: number;
}

/** The machine's clocks at one moment, all in ms. */
export interface Sample {
  readonly monotonic: number;
  readonly wall: number;
  /** Time since the machine was started, sleep included; in steps of 10 ms on Linux, coarser elsewhere. */
  readonly uptime: number;
}

/** More than the steps of the uptime, and the time between reading three clocks, can add up to. */
const GAP: Millis = 250;

/** A check is due every quarter of a second. After two seconds without one, the machine slept or might as well have. */
const LONG_SILENCE: Millis = 2000;

/** The wall clock is slewed by small amounts all the time; a change of more than a second means that it was set. */
const WALL_STEP: Millis = 1000;

/** What happened between two samples; null for nothing. `linux`: the monotonic clock stops in sleep. */
export function jumpBetween(before: Sample, after: Sample, linux: boolean): Jump | null {
  const monotonic = after.monotonic - before.monotonic;
  const gap = linux ? after.uptime - before.uptime - monotonic : 0;
  const missed = gap > GAP ? gap : 0;
  const slept = linux ? missed : monotonic > LONG_SILENCE ? monotonic : 0;
  const step = after.wall - before.wall - (monotonic + missed);
  const wallStep = Math.abs(step) > WALL_STEP ? step : 0;
  return slept > 0 || wallStep !== 0 ? { slept, missed, wallStep } : null;
}

/** The time of day at a moment, from a wall time read earlier or later. It does not matter how long ago. */
export function timeOfDayAt({ wallMs }: Pick<ClockInstant, 'wallMs'>, { epochMs, timeOfDay }: WallTime): Millis {
  const time = (timeOfDay + wallMs - epochMs) % DAY;
  return time < 0 ? time + DAY : time;
}

/** Functions that read the machine's clocks, all in ms. */
export interface MachineClocks {
  monotonic(): number;
  wall(): number;
  uptime(): number;
  /** Whether the monotonic clock stops in sleep. */
  readonly linux: boolean;
}

/** How many samples are taken at most, if the process is paused in the middle of each. */
const TRIES = 5;

/** In ms: clocks read within this time count as read at once. Reading three takes a few microseconds. */
const AT_ONCE = 1;

/**
 * Reads the clocks as close together as possible. The others are read between two readings of the monotonic clock; if
 * the process is paused in between, those two lie far apart. The closest of a few tries is kept. width: how far apart
 * the clocks of the sample can be, in ms.
 */
export function takeSample(clocks: MachineClocks): Sample & { readonly width: number } {
  let tightest: (Sample & { readonly width: number }) | null = null;
  for (let attempt = 0; attempt < TRIES; attempt++) {
    const before = clocks.monotonic();
    const uptime = clocks.uptime();
    const wall = clocks.wall();
    const monotonic = clocks.monotonic();
    const width = monotonic - before;
    if (!tightest || width < tightest.width) tightest = { monotonic, wall, uptime, width };
    if (width <= AT_ONCE) break;
  }
  return tightest!;
}

/** The clock of this machine. */
export function systemClock(clocks: MachineClocks = machineClocks): Clock {
  const { linux } = clocks;
  const listeners = new Set<(jump: Jump) => void>();
  let last = takeSample(clocks);
  let added = 0;
  let latest = -Infinity;
  let epoch = randomUUID();

  const hostTime = (monotonic: number): number => {
    // On some machines the monotonic clock has gone back after deep sleep.
    latest = Math.max(latest, monotonic + added);
    return latest;
  };

  return {
    now: () => hostTime(clocks.monotonic()),
    instant() {
      const { monotonic, wall, uptime } = takeSample(clocks);
      return { hostTime: hostTime(monotonic), wallMs: wall, monotonic, uptime };
    },
    wall() {
      const date = new Date();
      const minutes = date.getHours() * 60 + date.getMinutes();
      return { epochMs: date.getTime(), timeOfDay: (minutes * 60 + date.getSeconds()) * 1000 + date.getMilliseconds() };
    },
    check() {
      const sample = takeSample(clocks);
      // Clocks read too far apart would make the pause look like sleep: the next check will tell.
      if (sample.width > GAP / 2) return;
      const jump = jumpBetween(last, sample, linux);
      last = sample;
      if (!jump) return;
      added += jump.missed;
      if (jump.slept > 0) epoch = randomUUID();
      for (const listener of listeners) listener(jump);
    },
    epoch: () => epoch,
    onJump(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

const machineClocks: MachineClocks = {
  monotonic() {
    const [seconds, nanoseconds] = process.hrtime();
    return seconds * 1000 + nanoseconds / 1e6;
  },
  wall: Date.now,
  uptime: () => uptime() * 1000,
  linux: process.platform === 'linux',
};
