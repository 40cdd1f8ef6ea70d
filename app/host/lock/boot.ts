/*
 * Which start of the machine this is: the monotonic clock can be compared within one, and means nothing
 * across two.
 */

import { readFileSync } from 'node:fs';
import { uptime } from 'node:os';
import type { Millis } from '../../core/units.ts';

/**
 * Where the system gives a start no name, it is known by its time, wall clock less uptime, and the wall clock is
 * slewed and the uptime comes in whole seconds; no machine starts twice within half a minute of use.
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

/** wall and up in ms. */
export function bootByTime(wall: number, up: number): string {
  return `${BY_TIME}${Math.round(wall - up)}`;
}

export function isSameBoot(a: string, b: string): boolean {
  if (!a.startsWith(BY_TIME) || !b.startsWith(BY_TIME)) return a === b;
  return Math.abs(Number(a.slice(BY_TIME.length)) - Number(b.slice(BY_TIME.length))) <= SAME_START;
}
