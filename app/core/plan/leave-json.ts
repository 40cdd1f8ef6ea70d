/*
 * A leave for programs, as timetables and records have it: which rep of which set it is, and when. Distances are in the
 * pool's unit, `line` is the line of the text.
 */

import type { Millis } from '../units.ts';
import type { Rep } from './plan.ts';

export interface LeaveJson {
  /** From 0. */
  readonly stretch: number;
  readonly part: string;
  readonly line: number;
  readonly rounds: readonly { readonly round: number; readonly of: number }[];
  readonly rep: number;
  readonly of: number;
  readonly distance: number;
  readonly words: string;
  readonly atMs: number;
}

export function leaveJson(
  { set, rep, of, distance, words }: Pick<Rep, 'set' | 'rep' | 'of' | 'distance' | 'words'>,
  { stretch, part, at }: { readonly stretch: number; readonly part: string; readonly at: Millis },
): LeaveJson {
  return {
    stretch,
    part,
    line: set.line,
    rounds: set.rounds.map(({ round, of: rounds }) => ({ round, of: rounds })),
    rep,
    of,
    distance: distance / 10,
    words,
    atMs: at,
  };
}
