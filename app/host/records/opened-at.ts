/*
 * When a run was opened, from the first line of its journal and this machine's time zone.
 */

import { openedAtText } from '../../core/record/opened-at.ts';
import { MINUTE } from '../../core/units.ts';
import type { OpenedEntry } from '../journal/journal-line.ts';

/** "2026-11-26T19:30:00". */
export function openedAtOf({ wall, at, openedAtTimeOfDay }: OpenedEntry): string {
  const opened = wall - at;
  return openedAtText(opened - new Date(opened).getTimezoneOffset() * MINUTE, openedAtTimeOfDay);
}
