/*
 * What has happened by a view's t, for the record.
 */

import { leavesOf, type Leave } from '../record.ts';
import type { Tenths } from '../../units.ts';
import type { RunState } from '../state.ts';
import type { RunView } from '../view.ts';
import { stateOf } from './settled.ts';

/** By what has left, which stays the same value until something more does. */
const known = new WeakMap<RunState['departed'], readonly Leave[]>();

/** Every leave that has happened, by time and then lane number: once a session is done, the same list each time. */
export function leavesIn(view: RunView): readonly Leave[] {
  const state = stateOf(view);
  const leaves = known.get(state.departed) ?? leavesOf(state);
  known.set(state.departed, leaves);
  return leaves;
}

/** Reps and their distance, by lane number. */
export type Swum = ReadonlyMap<number, { readonly reps: number; readonly distance: Tenths }>;

/** What has left is settled once a session is done. */
const swums = new WeakMap<RunState['departed'], Swum>();

/** What each lane has swum; a lane that has not left has no entry. */
export function swumIn(view: RunView): Swum {
  const { departed } = stateOf(view);
  let swum = swums.get(departed);
  if (!swum) swums.set(departed, (swum = countSwum(departed)));
  return swum;
}

function countSwum(departed: RunState['departed']): Swum {
  const swum = new Map<number, { reps: number; distance: Tenths }>();
  for (const { lane, reps, from, to } of departed) {
    const own = swum.get(lane) ?? { reps: 0, distance: 0 };
    for (const { distance } of reps.slice(from, to)) {
      own.reps += 1;
      own.distance += distance;
    }
    swum.set(lane, own);
  }
  return swum;
}
