/*
 * Until when what the wall says stays as it is: everything on it changes a whole number of seconds before or after some
 * time of the run. Between two such changes only water and hand move, and nothing has to be worked out.
 */

import type { RunView } from '../../../app/core/run/view.ts';
import type { ClockChoice } from '../../../app/core/run/readings.ts';
import { MINUTE, SECOND, type Millis } from '../../../app/core/units.ts';

/** When each clock stood at its top. */
const ZERO: { readonly [clock in ClockChoice]: (view: RunView) => Millis | null } = {
  stretch: ({ clock }) => clock.from,
  run: () => 0,
  pool: ({ clock }) => -clock.poolPhase,
};

/**
 * The first time after the view's at which the wall may say something else. openedAt: local time of day at t = 0; by: the
 * clock that it shows.
 */
export function nextChange(view: RunView, openedAt: Millis, by: ClockChoice): Millis {
  const { t, phase, stretch, clock, lanes, pauseEnd, projectedTimes } = view;
  let left: Millis = SECOND;
  const seconds = (from: Millis | null | undefined): void => {
    if (from === null || from === undefined) return;
    const next = (((from - t) % SECOND) + SECOND) % SECOND;
    left = Math.min(left, next === 0 ? SECOND : next);
  };
  seconds(ZERO[by](view));
  seconds(clock.t0);
  // The time of day has no seconds.
  left = Math.min(left, MINUTE - ((((openedAt + t) % MINUTE) + MINUTE) % MINUTE));
  seconds(pauseEnd);
  seconds(projectedTimes[0]?.end);
  // What waits for a word moves all ends on with the time; rounded up, they change just after a whole second.
  const waits = phase === 'waiting' && stretch.kind !== 'swim';
  for (const { end } of waits || projectedTimes[0]?.end === t ? projectedTimes : []) {
    for (const zero of [openedAt, clock.poolPhase]) {
      seconds(t - ((end + zero) % SECOND));
      seconds(t - ((end + zero) % SECOND) + 1);
    }
  }
  for (const { next, last, end } of lanes) {
    seconds(next?.at);
    seconds(end);
    if (!last) continue;
    const { at, swimmers, away, tailAt } = last;
    seconds(at);
    seconds(tailAt);
    if (swimmers > 1) seconds(at + (away * (tailAt - at)) / (swimmers - 1));
  }
  return t + left;
}
