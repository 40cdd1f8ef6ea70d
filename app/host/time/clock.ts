/*
 * The one clock that the host goes by: monotonic, in ms, deaf to steps of the wall clock, and going on
 * through a closed lid. Linux stops its monotonic clock while the machine sleeps, so the time slept is
 * found from the uptime, which goes on, and added.
 */

import { randomUUID } from 'node:crypto';
import { uptime } from 'node:os';
import { DAY, type Millis } from '../../core/units.ts';

export interface Clock {
  /** Host time in ms, with a fraction; never decreasing. Where it begins means nothing. */
  now(): number;
  /** The time of day where the machine stands: for labels and for the phase of a run, never to measure with. */
  wall(): WallTime;
  /** Now, on the host's clock and on the machine's. */
  instant(): ClockInstant;
  /** Looks whether the machine slept or the wall clock was set since it last looked; cheap enough for every wake-up. */
  check(): void;
  /** Changes when host time starts anew or has jumped: what screens have measured before is void then. */
  epoch(): string;
  /** Told after `check` has found something; the returned function ends that. */
  onJump(listener: (jump: Jump) => void): () => void;
}

export interface WallTime {
  /** Milliseconds since 1970, UTC. */
  readonly epochMs: number;
  /** Local, in ms after midnight. */
  readonly timeOfDay: Millis;
}

/** One moment on the host's clock, and on those of the machine, which outlive the process. In ms. */
export interface ClockInstant {
  readonly hostTime: number;
  /** Since 1970, UTC. */
  readonly wallMs: number;
  /** As in a sample. */
  readonly monotonic: number;
  readonly uptime: number;
}

/** What happened between two looks; each in ms, 0 where it did not. */
export interface Jump {
  /** How long the machine slept. */
  readonly slept: number;
  /** Of that, how much the monotonic clock missed and host time has been moved on by. */
  readonly missed: number;
  /** How far the wall clock was set forward, or back (negative); never moves host time. */
  readonly wallStep: number;
}

/** The machine's clocks at one moment, all in ms. */
export interface Sample {
  readonly monotonic: number;
  readonly wall: number;
  /** Since the machine was started, sleep included; in steps of 10 ms on Linux, coarser elsewhere. */
  readonly uptime: number;
}

/** Above what the uptime's own steps, and reading three clocks one after another, can amount to. */
const GAP: Millis = 250;

/** Two seconds without a look, though one was due every quarter of a second: the machine slept, or as good as. */
const LONG_SILENCE: Millis = 2000;

/** The wall clock is slewed by small amounts all the time; beyond a second it was set. */
const WALL_STEP: Millis = 1000;

/** What happened between two samples, or null where nothing did. `linux`: the monotonic clock stops in sleep. */
export function jumpBetween(before: Sample, after: Sample, linux: boolean): Jump | null {
  const monotonic = after.monotonic - before.monotonic;
  const gap = linux ? after.uptime - before.uptime - monotonic : 0;
  const missed = gap > GAP ? gap : 0;
  const slept = linux ? missed : monotonic > LONG_SILENCE ? monotonic : 0;
  const step = after.wall - before.wall - (monotonic + missed);
  const wallStep = Math.abs(step) > WALL_STEP ? step : 0;
  return slept > 0 || wallStep !== 0 ? { slept, missed, wallStep } : null;
}

/** The time of day at a moment, from a wall time read a little earlier or later: however long the process was paused between. */
export function timeOfDayAt({ wallMs }: Pick<ClockInstant, 'wallMs'>, { epochMs, timeOfDay }: WallTime): Millis {
  const time = (timeOfDay + wallMs - epochMs) % DAY;
  return time < 0 ? time + DAY : time;
}

/** The machine's clocks, to be read one after another, all in ms. */
export interface MachineClocks {
  monotonic(): number;
  wall(): number;
  uptime(): number;
  /** The monotonic clock stops in sleep. */
  readonly linux: boolean;
}

/** So many samples are taken where the process is paused in the middle of each. */
const TRIES = 5;

/** In ms: reading three clocks takes a few microseconds; within this they count as read at once. */
const AT_ONCE = 1;

/**
 * The clocks read so that they belong together: the others between two readings of the monotonic one. A pause of
 * the process between them shows as a wide bracket; the tightest of a few is kept. `width`, in ms: by how much
 * the clocks of a sample may be apart.
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

/** The machine's own clock. */
export function systemClock(clocks: MachineClocks = machineClocks): Clock {
  const { linux } = clocks;
  const listeners = new Set<(jump: Jump) => void>();
  let last = takeSample(clocks);
  let added = 0;
  let latest = -Infinity;
  let epoch = randomUUID();

  const hostTime = (monotonic: number): number => {
    // Some machines' monotonic clocks have gone back after deep sleep.
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
      // Clocks that were read too far apart would make a sleep of the pause: the next look finds what there is.
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
