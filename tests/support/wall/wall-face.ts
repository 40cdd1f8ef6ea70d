/*
 * The wall screen's whole face at one moment, as the painters would ask for its parts.
 */

import type { ClockChoice } from '../../../app/core/run/readings.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import type { Millis } from '../../../app/core/units.ts';
import type { Callout } from '../../../renderer/wall/callout/callout-face.ts';
import { clockFace } from '../../../renderer/wall/says/clock-text.ts';
import { calloutOf, modeOf, stripFace, type WallMode } from '../../../renderer/wall/says/face.ts';
import { headFace, type Head } from '../../../renderer/wall/head/head-face.ts';
import type { LaneFace } from '../../../renderer/wall/strips/lane-face.ts';

export interface WallFace {
  readonly mode: WallMode;
  readonly clock: string;
  /** "starts in" during a countdown, else empty. */
  readonly clockLabel: string;
  readonly head: Head;
  /** What stands large in every mode but swim. */
  readonly callout: Callout | null;
  /** In lane order, all of them. */
  readonly lanes: readonly LaneFace[];
}

/** openedAt: local time of day at t = 0, in ms after midnight. */
export function wallFace(
  view: RunView,
  openedAt: Millis,
  choice: ClockChoice,
  abandonedAt: Millis = -Infinity,
): WallFace {
  const mode = modeOf(view);
  const { text: clock, label: clockLabel } = clockFace(view, choice);
  const lanes = view.lanes.map((lane, index) => stripFace(view, lane, index, choice, abandonedAt));
  return {
    mode,
    clock,
    clockLabel,
    head: headFace(view, openedAt, choice),
    callout: calloutOf(view, openedAt, true, lanes),
    lanes,
  };
}
