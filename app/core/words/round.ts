/*
 * Which round of how many, outermost first, and how many rounds there are.
 */

import type { Round } from '../plan/plan.ts';
import { count } from './phrase.ts';

type Counted = Pick<Round, 'round' | 'of'>;

/** "round 2 of 3"; rounds in rounds "round 2 of 3, round 1 of 2"; '' outside rounds. */
export function roundText(rounds: readonly Counted[]): string {
  return rounds.map(({ round, of }) => `round ${round} of ${of}`).join(', ');
}

/** "round 2" where it is known of how many; '' outside rounds. */
export function roundNumbers(rounds: readonly Pick<Round, 'round'>[]): string {
  return rounds.map(({ round }) => `round ${round}`).join(', ');
}

/** "1 round", "3 rounds". */
export function roundsText(times: number): string {
  return count(times, 'round');
}

/** "2 of 3; 1 of 2": a cell of a spreadsheet under the head "round". */
export function roundCell(rounds: readonly Counted[]): string {
  return rounds.map(({ round, of }) => `${round} of ${of}`).join('; ');
}
