/*
 * The one fake clock: host time and the timers on it, moved by the test alone. Timers fire in order of
 * their times while time is advanced; a stall lets time pass without them, so that they fire late.
 */

import type { Clock, Jump, ClockInstant, WallTime } from '../../../app/host/time/clock.ts';
import type { Timers } from '../../../app/host/time/timers.ts';

interface FakeTimer {
  readonly due: number;
  readonly callback: () => void;
}

const DAY = 86_400_000;

/** So many never fire while time is advanced once; more of them are going round and round. */
const MOST_TIMERS = 100_000;

export class FakeClock implements Clock {
  /** How much before its time a timer fires, in ms: real ones do by up to 1. */
  early = 0;
  readonly timers: Timers = {
    set: (callback, delay) => {
      const timer = { due: this.time + Math.max(0.25, delay - this.early), callback };
      this.set.add(timer);
      return timer;
    },
    clear: (timer) => {
      this.set.delete(timer as FakeTimer);
    },
  };
  private time: number;
  private wallAhead: number;
  private jumps = 0;
  private slept = 0;
  private unnoticed: Jump | null = null;
  private readonly set = new Set<FakeTimer>();
  private readonly listeners = new Set<(jump: Jump) => void>();

  /** timeOfDay: in ms after midnight; the machine stands at UTC. */
  constructor({ now = 1_000_000, timeOfDay = 19.5 * 3_600_000 } = {}) {
    this.time = now;
    this.wallAhead = timeOfDay - now;
  }

  now(): number {
    return this.time;
  }

  wall(): WallTime {
    const epochMs = Math.floor(this.time + this.wallAhead);
    return { epochMs, timeOfDay: ((epochMs % DAY) + DAY) % DAY };
  }

  /** The machine's own clocks: the monotonic one stops in sleep, the uptime does not. */
  instant(): ClockInstant {
    const { epochMs: wallMs } = this.wall();
    return { hostTime: this.time, wallMs, monotonic: this.time - this.slept, uptime: this.time };
  }

  check(): void {
    const jump = this.unnoticed;
    this.unnoticed = null;
    if (jump) for (const listener of this.listeners) listener(jump);
  }

  epoch(): string {
    return `epoch-${this.jumps}`;
  }

  onJump(listener: (jump: Jump) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Lets time pass, and timers fire at their times (or at once, where those are past). */
  advance(by: number): void {
    const end = this.time + by;
    for (let fired = 0; ; fired++) {
      if (fired > MOST_TIMERS) throw new Error('timers that fire without an end');
      const next = [...this.set].sort((a, b) => a.due - b.due)[0];
      if (!next || next.due > end) break;
      this.set.delete(next);
      this.time = Math.max(this.time, next.due);
      next.callback();
    }
    this.time = Math.max(this.time, end);
  }

  /** Lets time pass while no timer fires, as when the machine is busy with something else. */
  stall(by: number): void {
    this.time += by;
  }

  /** The machine sleeps: time passes, no timer fires, and the next look notices. */
  sleep(by: number): void {
    this.time += by;
    this.slept += by;
    this.jumps++;
    this.unnoticed = { slept: by, missed: by, wallStep: 0 };
  }

  /** Sets the wall clock to a time of day; host time does not move. */
  setWall(timeOfDay: number): void {
    const before = this.wallAhead;
    this.wallAhead = timeOfDay - this.time;
    this.unnoticed = { slept: 0, missed: 0, wallStep: this.wallAhead - before };
  }

  /** How many timers are set. */
  get pending(): number {
    return this.set.size;
  }
}
