/*
 * What is said beside the last 10 s before a start, the same on every screen. Swimmers push off at the end of what
 * "starts in" counts: where lanes leave later, by a shift or a Resume before the start, it is the clock that starts.
 */

import type { RunView } from '../../app/core/run/view.ts';

/** "starts in", "clock starts in"; empty where nothing counts down. */
export function countdownText({ clock, stretch, lanes }: RunView): string {
  const { startsIn, t0 } = clock;
  if (startsIn === null || t0 === null) return '';
  const begins = stretch.kind !== 'swim' || lanes.some(({ state, next }) => state === 'pending' && next!.at! <= t0);
  return begins ? 'starts in' : 'clock starts in';
}
