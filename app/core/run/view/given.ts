/*
 * A run as the last accepted command left it: for what no time changes, and whoever does not ask by the time.
 */

import type { RunState } from '../state.ts';
import { view, type RunView } from '../view.ts';

/** The view right after the last accepted command; of a run just opened, at t = 0. */
export function givenIn(state: RunState): RunView {
  return view(state, Math.max(0, state.commandAt));
}
