/*
 * Everything the wall screen says at one moment, in words and readings: what is drawn is this, set in
 * its places. Pure, so that every state can be looked at without a screen.
 */

import { reading } from '../../app/core/reading.ts';
import { clockReading, type ClockChoice } from '../../app/core/run/readings.ts';
import type { RunView } from '../../app/core/run/view.ts';
import { SECOND, type Millis } from '../../app/core/units.ts';
import { headFace, nextFace, pauseFace, doneFace, type Callout, type Head } from './head-face.ts';
import { firstFace, laneFace, type LaneFace } from './lane-face.ts';

export interface WallFace {
  /** swim: strips. next: the coach's word is waited for. pause: a talk or break. */
  readonly mode: 'swim' | 'next' | 'pause' | 'done';
  readonly clock: string;
  /** "starts in" during a countdown, else empty. */
  readonly clockLabel: string;
  readonly head: Head;
  /** What stands large in every mode but swim. */
  readonly callout: Callout | null;
  /** In lane order, all of them; none once the session is done. */
  readonly lanes: readonly LaneFace[];
}

/** openedAt: local time of day at t = 0, in ms after midnight. */
export function wallFace(view: RunView, openedAt: Millis, choice: ClockChoice): WallFace {
  const mode = modeOf(view);
  const { text: clock, label: clockLabel } = clockFace(view, choice);
  const head = headFace(view, openedAt);
  const lanes =
    mode === 'done'
      ? []
      : view.lanes.map((lane, index) =>
          mode === 'swim' ? laneFace(view, lane, index, choice) : firstFace(view, lane, index),
        );
  return { mode, clock, clockLabel, head, callout: calloutOf(mode, view, openedAt), lanes };
}

function modeOf(view: RunView): WallFace['mode'] {
  if (view.phase === 'done') return 'done';
  if (view.phase === 'waiting') return 'next';
  return view.stretch.kind === 'swim' ? 'swim' : 'pause';
}

function calloutOf(mode: WallFace['mode'], view: RunView, openedAt: Millis): Callout | null {
  switch (mode) {
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
function clockFace(view: RunView, choice: ClockChoice): { readonly text: string; readonly label: string } {
  const { startsIn } = view.clock;
  if (startsIn !== null && choice === 'stretch') {
    return { text: reading(Math.ceil(startsIn / SECOND) * SECOND), label: 'starts in' };
  }
  const shown = clockReading(choice, view.clock, view.state, view.t) ?? 0;
  return { text: reading(Math.floor(shown / SECOND) * SECOND), label: '' };
}
