/*
 * What the coach adds to a run when it is over. It is kept beside the run and changes nothing of it.
 */

import type { Millis } from '../units.ts';

export interface Afterwards {
  /** Words added to a mark, by the place of its command among all that were accepted, from 0. */
  readonly marks: readonly { readonly command: number; readonly words: string }[];
  readonly notes: readonly string[];
  /** Who was there, a lane each; null where nobody has said. */
  readonly attendance: readonly Attendance[] | null;
  /** How hard it was, 0 to 10; null where nobody has said. */
  readonly effort: number | null;
  readonly times: readonly HandTimes[];
}

/** By name or by number. */
export interface Attendance {
  readonly lane: number;
  readonly swimmers: number;
  readonly names: readonly string[] | null;
}

/** What one, two or three watches showed for one rep of a lane: the one that left at `at`. */
export interface HandTimes {
  readonly lane: number;
  readonly at: Millis;
  readonly watches: readonly Millis[];
}

export const NOTHING_ADDED: Afterwards = { marks: [], notes: [], attendance: null, effort: null, times: [] };
