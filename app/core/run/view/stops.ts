/*
 * Which stopped lanes were stopped before the others.
 */

import type { LaneView } from '../view.ts';

/** The numbers of the lanes that the last Stop among these does not hold. */
export function stoppedEarlier(lanes: readonly Pick<LaneView, 'number' | 'stop'>[]): readonly number[] {
  const last = Math.max(...lanes.map(({ stop }) => stop ?? -Infinity));
  return lanes.filter(({ stop }) => stop !== null && stop < last).map(({ number }) => number);
}
