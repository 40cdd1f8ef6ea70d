/*
 * What the coach is told when the host comes back, in sentences.
 */

import { basename } from 'node:path';
import type { Millis } from '../../core/units.ts';
import { hasStarted } from '../../core/run/first-start.ts';
import { leavesText } from '../../core/words/leaves.ts';
import { count } from '../../core/words/phrase.ts';
import { spanText } from '../../core/words/reading.ts';
import { clockTime } from '../../core/words/time-of-day.ts';
import { leavesMissed } from './comeback.ts';
import type { FoundRun } from './found-run.ts';

/** So many sets with leaves not called are told; more would hide the first of them. */
const MOST_TOLD = 6;

/** Why a coach may have seen a leave that counts as not called. */
const SCREENS_WENT_ON = 'A screen that stayed open went on by itself and may have shown them.';

/** For how long nobody was there, by which clock that is known, and what was not called. */
export function awayText(run: FoundRun): string {
  const { state, position } = run;
  if (!position.isKnown) return unknownAwayText(hasStarted(run.commands));
  const away = Math.max(0, Math.floor(position.at - position.seenAt));
  const back = `The run has come back after ${spanText(away)} in which the program was not there.`;
  const restarted =
    'The machine was restarted: the time is taken from its time of day, so look whether it agrees with the clock on the wall.';
  const missed = leavesMissed(state, position);
  const uncalled =
    missed.length === 0
      ? 'No leave fell due meanwhile.'
      : `Not called meanwhile: ${leavesText(missed, MOST_TOLD)}. ${SCREENS_WENT_ON}`;
  return [back, ...(position.by === 'wall' ? [restarted] : []), uncalled].join(' ');
}

/** Once a run has started its clock can be matched no more. */
function unknownAwayText(started: boolean): string {
  const mend = started ? 'shift the lanes until their leaves agree with it' : 'match the clock to it before the start';
  return (
    "The run has come back, but the machine was restarted and its clock stands before the run's last sign of life: " +
    'for how long the program was not there is not known, nor what was not called. ' +
    `The run goes on from that sign of life. Look at the clock on the wall, and ${mend}.`
  );
}

/** What was kept of a run to which nobody came back; `lastLeave` in ms since it was opened, null without one. */
export function unattendedText(run: FoundRun, lastLeave: Millis | null): string {
  const { openedAtTimeOfDay, commands } = run;
  const day = new Date(run.openedAtWall).toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });
  const opened = `opened on ${day} at ${clockTime(openedAtTimeOfDay)}`;
  const given = commands.length === 0 ? 'no command' : count(commands.length, 'command');
  const left = lastLeave === null ? 'no leave' : `the last leave at ${clockTime(openedAtTimeOfDay + lastLeave)}`;
  return `${run.state.plan.session.title ?? 'A session'}, ${opened}: ${given}, ${left}.`;
}

/** Why a record is not used to its end; `lines`: how many of them are used. */
export function stoppedText(path: string, lines: number, why: 'damaged' | 'out of place'): string {
  const name = basename(path);
  if (lines === 0) return `The record ${name} is damaged: nothing in it can be used, and it is put aside as it is.`;
  const what =
    why === 'damaged'
      ? `The record ${name} is damaged`
      : `In the record ${name} line ${lines + 1} is not the one that was written behind line ${lines}`;
  return `${what}: everything up to line ${lines} is used, and the rest is kept beside it. ${LOOK}`;
}

/** `why`: a sentence. */
export function refusedText(path: string, line: number, why: string): string {
  return (
    `Line ${line} of the record ${basename(path)} has a command that this Lanecall does not carry out (${why.replace(/\.$/, '')}): ` +
    `the run is as it was before it, and that line and all behind it are kept beside the record. ${LOOK}`
  );
}

const LOOK = 'Look whether the screens show what the swimmers do before you go on.';

export function newerText(path: string, version: number): string {
  return (
    `The record ${basename(path)} was written by a newer Lanecall (form ${version}): it is left as it is. ` +
    'Open it with that one.'
  );
}

export function brokenText(path: string): string {
  return (
    `The session in the record ${basename(path)} cannot be read by this Lanecall: it is left as it is. ` +
    'Open it with the one that wrote it, or move it out of the folder.'
  );
}

export function unreadableFolderText(folder: string, why: string): string {
  return (
    `The records in ${folder} cannot be read (${why}): a run that was going there does not come back. ` +
    'Mend the folder and start Lanecall again, or give another folder with --data.'
  );
}

export function unreadableText(path: string, why: string): string {
  return (
    `The record ${basename(path)} cannot be read (${why}): it is left as it is. ` +
    'Mend it and start Lanecall again, or move it out of the folder.'
  );
}

/** So many more of the sentences above were left out. */
export function moreText(more: number, folder: string): string {
  return `${count(more, 'more record')} in ${folder} cannot be used to the end: look there when the session is over.`;
}

/** So many unfinished records were not looked at. */
export function leftForLaterText(left: number, folder: string): string {
  return (
    `${count(left, 'older record')} of unfinished runs in ${folder} are left for the next start. ` +
    'Move them out of the folder where you do not need them.'
  );
}
