/*
 * A clock that runs as the machine's does and can be moved ahead: an hour on deck in a minute of test.
 * Each move is what a sleep of the machine is to the host: host time has jumped, screens measure anew.
 */

import { performance } from 'node:perf_hooks';
import type { Clock, Jump, Moment, WallTime } from '../../app/host/clock.ts';
import { DAY, HOUR, type Millis } from '../../app/core/units.ts';

export class MovingClock implements Clock {
  private readonly began = performance.now();
  private readonly startsAt: Millis;
  private ahead = 0;
  private moves = 0;
  private readonly listeners = new Set<(jump: Jump) => void>();

  /** startsAt: the time of day that it begins at, in ms after midnight; by default half past seven. */
  constructor(startsAt: Millis = 19.5 * HOUR) {
    this.startsAt = startsAt;
  }

  /** Since the clock was made. */
  now(): number {
    return performance.now() - this.began + this.ahead;
  }

  wall(): WallTime {
    const epochMs = Math.floor(this.startsAt + this.now());
    return { epochMs, timeOfDay: epochMs % DAY };
  }

  moment(): Moment {
    const hostTime = this.now();
    return { hostTime, wallMs: this.wall().epochMs, monotonic: hostTime, uptime: hostTime };
  }

  check(): void {
    // A move is told of when it is made; nothing else happens to this clock.
  }

  epoch(): string {
    return `move-${this.moves}`;
  }

  onJump(listener: (jump: Jump) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Moves host time on to a later time; does nothing where it is past that. */
  moveTo(time: number): void {
    const by = time - this.now();
    if (by <= 0) return;
    this.ahead += by;
    this.moves++;
    for (const listener of this.listeners) listener({ slept: by, missed: by, wallStep: 0 });
  }
}
