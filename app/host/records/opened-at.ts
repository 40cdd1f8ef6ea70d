/*
 * When a run was opened, by the clock of the place where it was.
 */

import { DAY, MINUTE } from '../../core/units.ts';
import type { OpenedEntry } from '../journal/journal-line.ts';

/**
 * "2026-11-26T19:30:00". The journal has the time of day as it was there; of the days that may belong to it, it is the
 * one nearest to what this machine's time zone says.
 */
export function openedAtOf({ wall, at, openedAtTimeOfDay }: OpenedEntry): string {
  const opened = wall - at;
  const here = opened - new Date(opened).getTimezoneOffset() * MINUTE;
  const midnight = Math.floor((here - openedAtTimeOfDay + DAY / 2) / DAY) * DAY;
  return new Date(midnight + openedAtTimeOfDay).toISOString().slice(0, 19);
}
