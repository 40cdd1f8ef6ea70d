/*
 * Tells which start of the machine this is. Monotonic times can be compared only within one start.
 */

import { readFileSync } from 'node:fs';
import { uptime } from 'node:os';
import type { Millis } from '../../core/units.ts';

/**
 * If the system has no name for a start, it is known by its time: wall clock minus uptime. That time is not exact,
 * because the wall clock is slewed and the uptime comes in whole seconds. But no machine starts twice in half a minute.
 */
const SAME_START: Millis = 30_000;

const BY_TIME = 'since ';

/** A name for the start that the machine is running on. */
export function thisBoot(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
  } catch {
    return bootByTime(Date.now(), uptime() * 1000);
  }
}

/** The name of a start from the wall clock and the uptime, both in ms. */
export function bootByTime(wall: number, up: number): string {
  return `${BY_TIME}${Math.round(wall - up)}`;
}

export function isSameBoot(a: string, b: string): boolean {
  if (!a.startsWith(BY_TIME) || !b.startsWith(BY_TIME)) return a === b;
  return Math.abs(Number(a.slice(BY_TIME.length)) - Number(b.slice(BY_TIME.length))) <= SAME_START;
}
