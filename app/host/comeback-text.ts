/*
 * What the coach is told when the host comes back, in sentences.
 */

import { basename } from 'node:path';
import { spanText, timeOfDayAfter } from '../core/reading.ts';
import { MINUTE } from '../core/units.ts';
import type { Leave } from '../core/run/record.ts';
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
    missed.length === 0 ? 'No leave fell due meanwhile.' : `Not called meanwhile: ${missedText(missed)}.`;
  return [back, ...(position.by === 'wall' ? [restarted] : []), uncalled].join(' ');
}

export function unattendedText(run: FoundRun): string {
  const { session } = run.state.plan;
  const minute = Math.floor(run.openedAtTimeOfDay / MINUTE);
  return `${session.title ?? 'A session'}, opened at ${timeOfDayAfter(minute, 0)}, was left unattended: its run is closed.`;
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

export function unreadableText(path: string, why: string): string {
  return `The record ${basename(path)} cannot be read (${why}): it is left as it is.`;
}

/** By lane and set: "lane 1: 50 free, reps 3 to 5; lane 2: …". */
function missedText(missed: readonly Leave[]): string {
  const groups: { readonly first: Leave; readonly reps: number[] }[] = [];
  for (const leave of [...missed].sort((a, b) => a.lane - b.lane || a.at - b.at)) {
    const group = groups[groups.length - 1];
    if (group?.first.lane === leave.lane && group.first.rep.set === leave.rep.set) group.reps.push(leave.rep.rep);
    else groups.push({ first: leave, reps: [leave.rep.rep] });
  }
  const told = groups.slice(0, MOST_TOLD).map(({ first, reps }) => {
    const { distance, set } = first.rep;
    const what = [distance > 0 ? String(distance / 10) : '', set.words].filter((word) => word !== '').join(' ');
    return `lane ${first.lane}: ${[what, repsText(reps)].filter((word) => word !== '').join(', ')}`;
  });
  const more = groups.length - told.length;
  return [...told, ...(more > 0 ? [`and ${more} more sets`] : [])].join('; ');
}

function repsText(reps: readonly number[]): string {
  const [first, last] = [reps[0]!, reps[reps.length - 1]!];
  return reps.length === 1 ? `rep ${first}` : `reps ${first} to ${last}`;
}
