/*
 * A clock that runs as the machine's does and can be moved ahead: an hour on deck in a minute of test.
 * Each move is what a sleep of the machine is to the host: host time has jumped, screens measure anew.
 * It counts from the machine's monotonic clock, so that two processes can have the same one.
 */

import type { Clock, Jump, ClockInstant, WallTime } from '../../../app/host/time/clock.ts';
import { DAY, HOUR, type Millis } from '../../../app/core/units.ts';

export interface ClockSetting {
  /** On the machine's monotonic clock, in ms. */
  readonly began: number;
  /** How far it has been moved since, in ms. */
  readonly ahead: number;
}

export class MovingClock implements Clock {
  private readonly began: number;
  private readonly startsAt: Millis;
  private ahead: number;
  private moves = 0;
  private readonly listeners = new Set<(jump: Jump) => void>();

  /** startsAt: the time of day that it begins at, in ms after midnight; by default half past seven. */
  constructor(startsAt: Millis = 19.5 * HOUR, { began, ahead }: ClockSetting = { began: monotonicNow(), ahead: 0 }) {
    this.startsAt = startsAt;
    this.began = began;
    this.ahead = ahead;
  }

  /** What makes another of these show the same. */
  setting(): ClockSetting {
    return { began: this.began, ahead: this.ahead };
  }

  /** Since the clock was made. */
  now(): number {
    return monotonicNow() - this.began + this.ahead;
  }

  wall(): WallTime {
    const epochMs = Math.floor(this.startsAt + this.now());
    return { epochMs, timeOfDay: epochMs % DAY };
  }

  instant(): ClockInstant {
    const hostTime = this.now();
    return { hostTime, wallMs: this.wall().epochMs, monotonic: hostTime, uptime: hostTime };
  }

  check(): void {
    // A move is told of when it is made; nothing else happens to this clock.
  }

  epoch(): string {
    return `process-${process.pid}-move-${this.moves}`;
  }

  onJump(listener: (jump: Jump) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Moves host time on to a later time; does nothing where it is past that. */
  moveTo(time: number): void {
    this.moveAhead(this.ahead + Math.max(0, time - this.now()));
  }

  /** The same, by how far it will have been moved in all. */
  moveAhead(ahead: number): void {
    const by = ahead - this.ahead;
    if (by <= 0) return;
    this.ahead = ahead;
    this.moves++;
    for (const listener of this.listeners) listener({ slept: by, missed: by, wallStep: 0 });
  }
}

function monotonicNow(): number {
  const [seconds, nanoseconds] = process.hrtime();
  return seconds * 1000 + nanoseconds / 1e6;
}
