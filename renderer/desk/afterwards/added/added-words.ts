/*
 * What was added to a run, in words: who was in a lane, and what was said of a mark.
 */

import type { Attendance } from '../../../../app/core/record/afterwards.ts';
import { listed, spaced } from '../../../../app/core/words/phrase.ts';

/** "3", "Ana and Bram", "3 and Eva": a number that stands beside names is of the others. */
export function thereWords({ swimmers, names }: Pick<Attendance, 'swimmers' | 'names'>): string {
  const named = names ?? [];
  const others = swimmers - named.length;
  return listed([...(others > 0 || named.length === 0 ? [`${others}`] : []), ...named]);
}

/** Words added to a mark follow its own, unless they begin with them. */
export function markWords(own: string, more: string): string {
  const isSaid = own !== '' && more.trim().toLowerCase().startsWith(own.toLowerCase());
  return isSaid ? more.trim() : spaced(own, more.trim());
}
