/*
 * Everything the wall screen says at one moment, in words and readings: what is drawn is this, set in
 * its places. Pure, so that every state can be looked at without a screen; in parts, so that one that
 * cannot be worked out does not take the others with it.
 */

import { reading } from '../../app/core/reading.ts';
import { clockReading, type ClockChoice } from '../../app/core/run/readings.ts';
import type { LaneView, RunView } from '../../app/core/run/view.ts';
import { SECOND, type Millis } from '../../app/core/units.ts';
import { headFace, nextFace, pauseFace, doneFace, type Callout, type Head } from './head-face.ts';
import { firstFace, laneFace, type LaneFace } from './lane-face.ts';

/** swim: strips. next: the coach's word is waited for. pause: a talk or break. */
export type WallMode = 'swim' | 'next' | 'pause' | 'done';

/** One lane's part of it. index: the lane's place in lane order; abandonedAt: as in `laneFace`. */
export function stripFace(
  view: RunView,
  lane: LaneView,
  index: number,
  choice: ClockChoice,
  abandonedAt: Millis,
): LaneFace {
  return modeOf(view) === 'swim'
    ? laneFace(view, lane, index, choice, abandonedAt)
    : firstFace(view, lane, index, abandonedAt);
}

export function modeOf(view: RunView): WallMode {
  if (view.phase === 'done') return 'done';
  if (view.phase === 'waiting') return 'next';
  return view.stretch.kind === 'swim' ? 'swim' : 'pause';
}

export function calloutOf(view: RunView, openedAt: Millis): Callout | null {
  switch (modeOf(view)) {
    case 'swim':
      return null;
    case 'next':
      return nextFace(view);
    case 'pause':
      return pauseFace(view);
    case 'done':
      return doneFace(view, openedAt);
  }
}

/** A clock that has not started stands at 0:00; in a countdown it shows the seconds that are left. */
export function clockFace(view: RunView, choice: ClockChoice): { readonly text: string; readonly label: string } {
  const { startsIn } = view.clock;
  if (startsIn !== null && choice === 'stretch') {
    return { text: reading(Math.ceil(startsIn / SECOND) * SECOND), label: 'starts in' };
  }
  const shown = clockReading(choice, view.clock, view.state, view.t) ?? 0;
  return { text: reading(Math.floor(shown / SECOND) * SECOND), label: '' };
}
