/*
 * Words about fitting the hour, the same before and during a run.
 */

import { swimDownPart, type Fit } from '../../app/core/run/fit.ts';
import type { RunState } from '../../app/core/run/state.ts';

/** What the cuts are good for, in one line above them; nothing where the hour is kept. */
export function adviceOf({ over, cuts, serves }: Fit): string {
  if (over <= 0) return '';
  if (cuts.length === 0) return 'No cut brings the end forward: shorten the last part, or move on.';
  if (serves === 'each') return 'Any one of these brings it back:';
  return serves === 'all' ? 'These together bring it back:' : 'These bring it nearest:';
}

/** The part that is never cut: the swim-down, or else the last. */
export function nameOfLast(state: RunState): string {
  return state.plan.session.parts[swimDownPart(state)]?.name ?? 'The last part';
}
