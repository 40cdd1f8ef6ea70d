/*
 * Everything the wall screen says at one moment, as words and readings; painters only set them in their places. Pure,
 * so that every state can be looked at without a screen; in parts, so that one that cannot be worked out does not take
 * the others with it.
 */

import type { ClockChoice } from '../../../app/core/run/readings.ts';
import type { LaneView, RunView } from '../../../app/core/run/view.ts';
import type { Millis } from '../../../app/core/units.ts';
import {
  doneFace,
  nextFace,
  pauseFace,
  stoppedFace,
  whileSomeLeave,
  withoutWords,
  type Callout,
} from '../callout/callout-face.ts';
import { firstFace, laneFace, swumFace, type LaneFace } from '../strips/lane-face.ts';

/** swim: strips. stopped: all lanes are. next: the coach's word is waited for. pause: a talk or break. */
export type WallMode = 'swim' | 'stopped' | 'next' | 'pause' | 'done';

/** One lane's part of it. index: the lane's place in lane order; abandonedAt: as in `laneFace`. */
export function stripFace(
  view: RunView,
  lane: LaneView,
  index: number,
  choice: ClockChoice,
  abandonedAt: Millis,
): LaneFace {
  switch (modeOf(view)) {
    case 'swim':
    case 'stopped':
      return laneFace(view, lane, index, choice, abandonedAt);
    case 'next':
    case 'pause':
      return firstFace(view, lane, index, choice, abandonedAt);
    case 'done':
      return swumFace(view, lane.number);
  }
}

export function modeOf(view: RunView): WallMode {
  if (view.phase === 'done') return 'done';
  if (view.phase === 'waiting') return 'next';
  if (view.stretch.kind !== 'swim') return 'pause';
  const is = (state: LaneView['state']): boolean => view.lanes.some((lane) => lane.state === state);
  return is('stopped') && !is('pending') ? 'stopped' : 'swim';
}

/** words: whether it is said what is swum; else only that. faces: of the lanes that it stands beside. */
export function calloutOf(
  view: RunView,
  openedAt: Millis,
  words: boolean,
  faces: readonly Pick<LaneFace, 'turn'>[],
): Callout | null {
  const whole = wholeCallout(view, openedAt);
  const callout = whole && faces.some(({ turn }) => turn !== '') ? whileSomeLeave(whole, view) : whole;
  return callout && !words ? withoutWords(callout, view) : callout;
}

function wholeCallout(view: RunView, openedAt: Millis): Callout | null {
  switch (modeOf(view)) {
    case 'swim':
      return null;
    case 'stopped':
      return stoppedFace(view);
    case 'next':
      return nextFace(view);
    case 'pause':
      return pauseFace(view);
    case 'done':
      return doneFace(view, openedAt);
  }
}
