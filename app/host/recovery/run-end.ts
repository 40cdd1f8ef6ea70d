/*
 * Tells when a run is over and nothing can be undone any more.
 */

import type { Millis } from '../../core/units.ts';
import { UNDO_FOR } from '../../core/run/align.ts';
import { settle } from '../../core/run/settle.ts';
import type { RunState } from '../../core/run/state.ts';

/** Whether the run is done and an undo at this time, or later, comes too late. */
export function isOverForGood(state: RunState, at: Millis): boolean {
  const now = settle(state, at);
  return now.phase === 'done' && at > now.doneAt! + UNDO_FOR;
}
