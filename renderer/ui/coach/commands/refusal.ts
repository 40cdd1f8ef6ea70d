/*
 * Why a command cannot be given now. It is tried on a copy of the run by the host's own rules; and a Resume or Rejoin
 * within a second of a Stop is taken for a slip of the finger.
 */

import type { Command } from '../../../../app/core/run/command/command.ts';
import { RULES } from '../../../../app/core/run/command/commands.ts';
import type { RunView } from '../../../../app/core/run/view.ts';
import { tried } from '../../../../app/core/run/view/trial.ts';
import type { Millis } from '../../../../app/core/units.ts';
import { commandLabel } from '../../../../app/core/run/command/command-label.ts';

/** null if it can be done, else the sentence that says why not. */
export type Refusal = string | null;

/**
 * For this long after a Stop a Resume or Rejoin is refused, in ms. It has taken Stop's place on the screen, and who
 * presses Stop twice, in fright or with a wet finger, means Stop. The second press comes within a second; who stopped
 * by accident takes longer to reach for Resume, and has Undo at once. Stop itself never waits.
 */
export const STOP_SETTLES: Millis = 1000;

/** Whether lanes were stopped so recently that a Resume is refused. */
export function stopSettles({ stoppedAt, t }: Pick<RunView, 'stoppedAt' | 't'>): boolean {
  return t < stoppedAt + STOP_SETTLES;
}

/** Why a command would be refused now. */
export function refusalOf(now: RunView, command: Command): Refusal {
  const trial = tried(now, command);
  if (!trial.ok) return trial.why;
  return RULES[command.do].sign === 'resume' ? unmeant(now, trial.after, command) : null;
}

/** Why a Resume or Rejoin that the run would accept is refused all the same. */
function unmeant(before: RunView, after: RunView, command: Command): Refusal {
  const lanes = 'lanes' in command ? command.lanes : undefined;
  const isOfLastStop = (number: number): boolean =>
    before.lanes.some((lane) => lane.number === number && lane.stop === before.lastStop);
  if (stopSettles(before) && (!lanes || lanes.some(isOfLastStop))) {
    return `Stopped. ${commandLabel(command)} works 1 s after a Stop; Undo takes the Stop back at once.`;
  }
  const freed = after.lanes.filter(({ stop }, index) => stop === null && before.lanes[index]!.stop !== null);
  const isOver = command.do === 'rejoin' && freed.length > 0 && !freed.some(({ pending }) => pending);
  return isOver ? 'Nothing is left of the old times: use Resume.' : null;
}
