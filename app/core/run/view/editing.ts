/*
 * The text of a run that is edited while it runs: what of it is locked, and what another text would come to.
 */

import { firstLineToCome, forgottenBetween, type Forgotten } from '../rewrite.ts';
import { settleForCommand } from '../settle.ts';
import type { RunView } from '../view.ts';
import { stateOf } from './settled.ts';

/** The first line, from 1, of the text in force that has not begun; one past the last where all has. */
export function firstLineOpen(view: RunView): number {
  return firstLineToCome(stateOf(view));
}

/** The same for a text that is given now: what leaves within the next quarter of a second has begun for it. */
export function firstLineGiven(view: RunView): number {
  return firstLineToCome(settleForCommand(stateOf(view), view.t));
}

/** The cuts and changed intervals that went with the lines replaced between two views. */
export function forgottenIn(before: RunView, after: RunView): Forgotten {
  return forgottenBetween(stateOf(before), stateOf(after));
}
