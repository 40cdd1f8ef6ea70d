/*
 * How the core gets from a view to the state that it was made of. Screens may not import this (the dependency rules
 * hold them off): what they want of a state the view gives them by name, or a function in this folder.
 */

import type { RunState } from '../state.ts';

/** Where a view keeps it: not by a name, so that nobody reaches through. */
export const SETTLED: unique symbol = Symbol('settled');

export interface Settled {
  readonly [SETTLED]: RunState;
}

/** The state, settled at the view's t. */
export function stateOf(view: Settled): RunState {
  return view[SETTLED];
}
