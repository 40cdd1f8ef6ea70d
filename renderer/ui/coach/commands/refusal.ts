/*
 * Why a command cannot be given at a moment: it is tried on the run by the very rules that the host will hold it
 * to, and by what a hand means by it.
 */

import type { Command } from '../../../../app/core/run/command/command.ts';
import { RULES } from '../../../../app/core/run/command/commands.ts';
import type { RunView } from '../../../../app/core/run/view.ts';
import { tried } from '../../../../app/core/run/view/trial.ts';
import type { Millis } from '../../../../app/core/units.ts';
import { commandLabel } from '../../../../app/core/run/command/command-label.ts';

/** null where it can be done, else the sentence that says why not. */
export type Refusal = string | null;

/**
 * So soon after a Stop the Resume or Rejoin that has taken its place is not meant, in ms: whoever presses Stop twice
 * in fright, or with a wet finger, means Stop. A second press comes within a second; whoever sees that a Stop
 * was an accident needs longer than that to reach for Resume, and has Undo at once. A Stop is never kept waiting.
 */
export const STOP_SETTLES: Millis = 1000;

/** Whether lanes were stopped so short a time ago that none of them is sent on yet. */
export function stopSettles({ stoppedAt, t }: Pick<RunView, 'stoppedAt' | 't'>): boolean {
  return t < stoppedAt + STOP_SETTLES;
}

/** Why a command would be refused now, by the run or by what a hand means by it. */
export function refusalOf(now: RunView, command: Command): Refusal {
  const trial = tried(now, command);
  if (!trial.ok) return trial.why;
  return RULES[command.do].sign === 'resume' ? unmeant(now, trial.after, command) : null;
}

/** Of a Resume or Rejoin that the run would take. */
function unmeant(before: RunView, after: RunView, command: Command): Refusal {
  const lanes = 'lanes' in command ? command.lanes : undefined;
  const isOfLastStop = (number: number): boolean =>
    before.lanes.some((lane) => lane.number === number && lane.stop === before.lastStop);
  if (stopSettles(before) && (!lanes || lanes.some(isOfLastStop))) {
    return `Stopped. ${commandLabel(command)} is taken 1 s after a Stop; Undo takes the Stop back at once.`;
  }
  const freed = after.lanes.filter(({ stop }, index) => stop === null && before.lanes[index]!.stop !== null);
  const isOver = command.do === 'rejoin' && freed.length > 0 && !freed.some(({ pending }) => pending);
  return isOver ? 'Nothing is left of the old times: use Resume.' : null;
}
