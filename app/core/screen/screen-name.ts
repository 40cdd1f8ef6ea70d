/*
 * The name of a wall screen, by which its settings are kept.
 */

import { keptName } from '../words/kept-name.ts';

/** So long a name can be read across a pool when it is shown large. */
export const LONGEST_NAME = 40;

/** Of the desktop program's own wall screen. */
export const OWN_WALL = 'Wall';

/** A name as it is kept; null for what is no name. */
export function screenName(text: string): string | null {
  return keptName(text, LONGEST_NAME);
}

/** "Screen 1", or the first number after it that is not taken. */
export function freeName(isTaken: (name: string) => boolean): string {
  for (let n = 1; ; n++) {
    const name = `Screen ${n}`;
    if (!isTaken(name)) return name;
  }
}
