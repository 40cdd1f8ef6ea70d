/*
 * What is an estimate on a screen, and how it is marked, the same on all of them. A leave is none: the program
 * sends the lane off at that reading, whatever its interval was worked out from.
 */

import { reading } from '../../app/core/reading.ts';
import type { Rep, Stretch } from '../../app/core/plan/plan.ts';

/** In front of a text that is an estimate; nothing in front of others. */
export function about(isEstimate: boolean): string {
  return isEstimate ? '≈ ' : '';
}

/** "1:35", "≈ 1:35" of a rest or an untimed set. */
export function intervalText({ interval, set }: Pick<Rep, 'interval' | 'set'>): string {
  return `${about(set.estimated)}${reading(interval)}`;
}

/** Whether what a cut of a line saves is an estimate: of a set on that line, or in the rounds on it. */
export function lineIsEstimate(stretches: readonly Stretch[], line: number): boolean {
  return stretches.some(({ lanes }) =>
    lanes.some(({ reps }) =>
      reps.some(({ set }) => set.estimated && (set.line === line || set.rounds.some((round) => round.line === line))),
    ),
  );
}
