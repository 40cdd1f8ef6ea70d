/*
 * One rep: what is swum, and which of how many it is.
 */

import type { Rep } from '../plan/plan.ts';
import type { LengthUnit } from '../units.ts';
import { distanceIn, distanceText } from './distance.ts';
import { spaced } from './phrase.ts';
import { reading } from './time/reading.ts';

/** In a sentence: "50 fast", "50 m" without words, "15:00 easy swim". */
export function repText(
  { distance, interval, words, set }: Pick<Rep, 'distance' | 'interval' | 'words' | 'set'>,
  unit: LengthUnit,
): string {
  if (set.kind === 'timed-swim') return spaced(reading(interval), words);
  return words === '' ? distanceIn(distance, unit) : spaced(distanceText(distance), words);
}

/** Beside its interval: "50 fast", "50"; of a swim by time its words alone. */
export function repWords({ distance, words }: Pick<Rep, 'distance' | 'words'>): string {
  return spaced(distance === 0 ? '' : distanceText(distance), words);
}

/** "3 of 4", counted as reps now are, after cuts. */
export function repOf({ rep, of }: { readonly rep: Pick<Rep, 'rep'>; readonly of: number }): string {
  return `${rep.rep} of ${of}`;
}
