/*
 * What the coach is told when the host comes back, in sentences.
 */

import { basename } from 'node:path';
import { spanText, timeOfDayAfter } from '../core/reading.ts';
import { MINUTE, type Millis } from '../core/units.ts';
import { leavesText } from '../core/run/leaves-text.ts';
import { leavesMissed } from './comeback.ts';
import type { FoundRun } from './found-run.ts';

/** So many sets with leaves not called are told; more would hide the first of them. */
const MOST_TOLD = 6;

/** For how long nobody was there, by which clock that is known, and what was not called. */
export function awayText(run: FoundRun): string {
  const { state, position } = run;
  const away = Math.max(0, Math.floor(position.at - position.seenAt));
  const back = `The run has come back after ${spanText(away)} in which the program was not there.`;
  const restarted =
    'The machine was restarted: the time is taken from its time of day, so look whether it agrees with the clock on the wall.';
  const missed = leavesMissed(state, position);
  const uncalled =
    missed.length === 0 ? 'No leave fell due meanwhile.' : `Not called meanwhile: ${leavesText(missed, MOST_TOLD)}.`;
  return [back, ...(position.by === 'wall' ? [restarted] : []), uncalled].join(' ');
}

/** What was kept of a run to which nobody came back; `lastLeave` in ms since it was opened, null without one. */
export function unattendedText(run: FoundRun, lastLeave: Millis | null): string {
  const { openedAtTimeOfDay, commands } = run;
  const timeOf = (time: Millis): string => timeOfDayAfter(Math.floor(time / MINUTE), 0);
  const day = new Date(run.openedAtWall).toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });
  const opened = `opened on ${day} at ${timeOf(openedAtTimeOfDay)}`;
  const given =
    commands.length === 0 ? 'no command' : commands.length === 1 ? '1 command' : `${commands.length} commands`;
  const left = lastLeave === null ? 'no leave' : `the last leave at ${timeOf(openedAtTimeOfDay + lastLeave)}`;
  return `${run.state.plan.session.title ?? 'A session'}, ${opened}: ${given}, ${left}.`;
}

/** `lines`: how many are left. */
export function tornText(path: string, lines: number): string {
  const left = lines === 0 ? 'nothing in it can be used' : `everything up to line ${lines} is used`;
  return `The record ${basename(path)} is damaged: ${left}, and the rest is kept beside it.`;
}

export function newerText(path: string, version: number): string {
  return `The record ${basename(path)} was written by a newer Lanecall (form ${version}): it is left as it is.`;
}

export function brokenText(path: string): string {
  return `The session in the record ${basename(path)} cannot be read by this Lanecall: it is left as it is.`;
}

export function unreadableFolderText(folder: string, why: string): string {
  return `The records in ${folder} cannot be read (${why}): a run that was going there does not come back.`;
}

export function unreadableText(path: string, why: string): string {
  return `The record ${basename(path)} cannot be read (${why}): it is left as it is.`;
}
