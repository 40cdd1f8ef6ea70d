/*
 * What a stretch is to the coach and the swimmers: a set, a talk or a break.
 */

import type { Stretch } from '../plan/plan.ts';
import type { Millis } from '../units.ts';
import { spaced } from './phrase.ts';
import { reading } from './time/reading.ts';

/** "set", "talk", "break". */
export function kindText({ kind }: Pick<Stretch, 'kind'>): string {
  return kind === 'swim' ? 'set' : kind;
}

/** What is to come: "next set", "talk", "break". */
export function followingText({ kind }: Pick<Stretch, 'kind'>): string {
  return kind === 'swim' ? 'next set' : kind;
}

/** "talk 1:30 turns", "break 0:45". */
export function pauseText({
  kind,
  time,
  words,
}: {
  readonly kind: string;
  readonly time: Millis;
  readonly words: string;
}): string {
  return spaced(kind, reading(time), words);
}
