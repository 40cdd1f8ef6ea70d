/*
 * What the coach is told when the host comes back, in sentences.
 */

import { basename } from 'node:path';
import type { Millis } from '../../core/units.ts';
import { hasStarted } from '../../core/run/first-start.ts';
import { leavesOf, wasCalled, type Away } from '../../core/run/record.ts';
import { settle } from '../../core/run/settle.ts';
import { notCalledText, notRunningText } from '../../core/words/away.ts';
import { count } from '../../core/words/phrase.ts';
import { clockTime } from '../../core/words/time/time-of-day.ts';
import type { RunState } from '../../core/run/state.ts';
import type { FoundRun } from './found-run.ts';

/** Why a coach may have seen a leave that the record has as not called. */
const SCREENS_WENT_ON = 'A screen that stayed open kept going by itself and may have shown them.';

/** How long the program was not running, by which clock that is known, and what was not called. */
export function awayText(run: FoundRun): string {
  const { state, position } = run;
  if (!position.isKnown) return unknownAwayText(hasStarted(run.commands));
  const away = { from: position.seenAt, to: Math.max(position.seenAt, Math.floor(position.at)) };
  const back = `The run has come back: ${notRunningText(away.to - away.from)}.`;
  const restarted =
    'The machine was restarted, so this comes from its time of day: check it against the clock on the wall.';
  return [back, ...(position.by === 'wall' ? [restarted] : []), uncalledText(state, away)].join(' ');
}

function uncalledText(state: RunState, away: Away): string {
  const leaves = leavesOf(settle(state, away.to));
  const text = notCalledText(leaves, away);
  return leaves.every((leave) => wasCalled(leave, [away])) ? text : `${text} ${SCREENS_WENT_ON}`;
}

/** Once a run has started, its clock can no longer be matched. */
function unknownAwayText(started: boolean): string {
  const mend = started ? 'shift the lanes until their leaves agree with it' : 'match the clock to it before the start';
  return (
    "The run has come back, but the machine was restarted and its clock is now earlier than the run's last record. " +
    'Lanecall cannot tell how long it was not running, or which leaves were not called. ' +
    `The run goes on from that last record. Look at the clock on the wall, and ${mend}.`
  );
}

/** What was kept of a run that was left unattended. lastLeave: ms since the run was opened, null for none. */
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

/** A record whose first line is damaged. */
export function uselessText(path: string): string {
  return `The record ${basename(path)} is damaged and nothing in it can be used: it is kept unchanged under another name.`;
}

/** Why a record is used only up to a line; `lines`: how many lines are used, one at least. */
export function stoppedText(path: string, lines: number, why: 'damaged' | 'out of place'): string {
  const name = basename(path);
  const what =
    why === 'damaged'
      ? `The record ${name} is damaged`
      : `In the record ${name}, line ${lines + 1} is not the one that was written after line ${lines}`;
  return `${what}: Lanecall uses everything up to line ${lines} and keeps the rest in a file beside it. ${LOOK}`;
}

/** Why a record stops at a command. `why`: a sentence. */
export function refusedText(path: string, line: number, why: string): string {
  return (
    `Line ${line} of the record ${basename(path)} has a command that this Lanecall cannot carry out (${why.replace(/\.$/, '')}): ` +
    `the run is as it was before that line, and the rest is kept in a file beside the record. ${LOOK}`
  );
}

const LOOK = 'Before you go on, check that the screens show what the swimmers are doing.';

export function newerText(path: string, version: number): string {
  return (
    `The record ${basename(path)} was written by a newer Lanecall (form ${version}): it is left unchanged. ` +
    'Open it with that newer version.'
  );
}

export function brokenText(path: string): string {
  return (
    `The session in the record ${basename(path)} cannot be read by this Lanecall: it is left unchanged. ` +
    'Open it with the version that wrote it, or move it out of the folder.'
  );
}

export function unreadableFolderText(folder: string, why: string): string {
  return (
    `The records in ${folder} cannot be read (${why}): a run that was going cannot come back. ` +
    'Repair the folder and start Lanecall again, or name another folder with --data.'
  );
}

export function unreadableText(path: string, why: string): string {
  return (
    `The record ${basename(path)} cannot be read (${why}): it is left unchanged. ` +
    'Repair it and start Lanecall again, or move it out of the folder.'
  );
}

/** How many more records have a sentence like those above. */
export function moreText(more: number, folder: string): string {
  return `${count(more, 'more record')} in ${folder} cannot be used completely: look in that folder after the session.`;
}

/** How many unfinished records were not read at this start. */
export function leftForLaterText(left: number, folder: string): string {
  return (
    `${count(left, 'older record')} of unfinished runs in ${folder} are left for the next start. ` +
    'Move them out of the folder if you do not need them.'
  );
}
