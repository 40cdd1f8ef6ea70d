/*
 * What the coach did, in words. What was undone is told once, by its name: what it said then never came about.
 */

import { commandLabel } from '../run/command/command-label.ts';
import { lanesNamed } from '../words/lanes.ts';
import { commaed } from '../words/phrase.ts';
import type { GivenRecord, RunRecord } from './record.ts';

export interface Deed extends GivenRecord {
  /** Its place among all commands that were accepted, from 0. */
  readonly place: number;
  /** The words of a mark as they were given, or what another command did. */
  readonly words: string;
}

/** Every command but the undos, in order. */
export function deedsOf({ commands }: Pick<RunRecord, 'commands'>): readonly Deed[] {
  return commands
    .map((given, place) => ({ ...given, place, words: wordsOf(given) }))
    .filter(({ command }) => command.do !== 'undo');
}

function wordsOf(given: GivenRecord): string {
  const { command, lanes, undone, did } = given;
  if (command.do === 'mark') return command.words ?? '';
  return undone ? commaed(commandLabel(command), lanes.length > 0 ? lanesNamed(lanes) : '') : did;
}
