/*
 * A squad: lanes that are kept under a name and chosen for a session, each as its line says it.
 */

import { keptName } from '../../words/kept-name.ts';
import type { WrittenLane } from '../line/lane-line.ts';
import { parseLanes } from '../parse.ts';

export const LONGEST_SQUAD_NAME = 40;

export function squadName(text: string): string | null {
  return keptName(text, LONGEST_SQUAD_NAME);
}

/** Whether two names are one: they differ in large and small letters at most. */
export function isSameSquad(one: string, other: string): boolean {
  return one.toLowerCase() === other.toLowerCase();
}

/** Its lanes in their order, from one `lane` line each; null where that is not what they are. */
export function squadLanes(lines: readonly string[]): readonly WrittenLane[] | null {
  if (lines.length === 0 || lines.some((line) => /[\r\n]/.test(line))) return null;
  const read = parseLanes(lines.join('\n'));
  // A line that says something else makes no lane.
  return read.ok && read.value.lanes.length === lines.length ? read.value.lanes : null;
}
