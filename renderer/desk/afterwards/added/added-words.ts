/*
 * What was added to a run, in words: who was in a lane.
 */

import type { Attendance } from '../../../../app/core/record/afterwards.ts';
import { listed } from '../../../../app/core/words/phrase.ts';

/** "3", "Ana and Bram", "3 and Eva": a number that stands beside names is of the others. */
export function thereWords({ swimmers, names }: Pick<Attendance, 'swimmers' | 'names'>): string {
  const named = names ?? [];
  const others = swimmers - named.length;
  return listed([...(others > 0 || named.length === 0 ? [`${others}`] : []), ...named]);
}
