/*
 * Times of the run as the clock that a screen shows will read at that moment. The pool's clock is a 60-second clock:
 * readings of it are seconds past its top, `:35`.
 */

import { readingAt, type ClockChoice } from '../../run/readings.ts';
import type { LaneView, RunView } from '../../run/view.ts';
import { stillToSwim } from '../../run/view/still-to-swim.ts';
import { MINUTE, SECOND, type Millis } from '../../units.ts';
import { about } from './estimate.ts';
import { reading } from './reading.ts';

type Clocked = Pick<RunView, 'clock'>;

/** A leave, or another time to come; null where there is no clock to read yet. */
export function leaveReading(choice: ClockChoice, view: Clocked, at: Millis): string | null {
  const shown = leaveShown(choice, view, at);
  return shown === null ? null : readingOn(choice, shown);
}

/** The same for a swimmer behind the lead: in whole seconds, rounded up, where only the clock began between two. */
export function tailReading(choice: ClockChoice, view: Clocked, at: Millis): string | null {
  const shown = leaveShown(choice, view, at);
  if (shown === null) return null;
  // Swims start on whole seconds of the pool's clock: a leave that is not on one is in tenths by the session.
  const isWhole = (at + view.clock.poolPhase) % SECOND === 0;
  return readingOn(choice, isWhole ? Math.ceil(shown / SECOND) * SECOND : shown);
}

function leaveShown(choice: ClockChoice, { clock }: Clocked, at: Millis): Millis | null {
  const { from, t0 } = clock;
  // Until the next start the stretch's clock runs on, so that tails still get their times.
  const runsOn = choice === 'stretch' && from !== null && t0 !== null && at < t0;
  const shown = runsOn ? at - from : readingAt(choice, clock, at);
  return shown === null ? null : Math.max(0, shown);
}

/**
 * Where a lane with nothing more to leave stands: "in by 7:45", and from then on that it "waits" for what it still swims
 * in the session, or is "finished". An untimed set is over at the coach's word, and until then its estimate is left standing.
 */
export function inByText(
  choice: ClockChoice,
  view: Clocked & Pick<RunView, 't' | 'lanes' | 'stretches' | 'index'>,
  { number, last, end }: LaneView,
): string {
  const { estimated, untimed } = last?.rep.set ?? { estimated: false, untimed: false };
  if (view.t >= end && !untimed) {
    const index = view.lanes.findIndex((lane) => lane.number === number);
    return stillToSwim(view, index) ? 'waits' : 'finished';
  }
  return `in by ${about(estimated)}${leaveReading(choice, view, end) ?? '–'}`;
}

/** What a clock shows, in ms from its zero. */
export function readingOn(choice: ClockChoice, shows: Millis): string {
  return choice === 'pool' ? reading(shows % MINUTE).slice(1) : reading(shows);
}

/**
 * What is said beside the last 10 s before a start: "starts in". Swimmers push off at the end of what it counts: where
 * lanes leave later, by a shift or a Resume before the start, it is the clock that starts. '' where nothing counts down.
 */
export function countdownText({ clock, stretch, lanes }: Pick<RunView, 'clock' | 'stretch' | 'lanes'>): string {
  const { startsIn, t0 } = clock;
  if (startsIn === null || t0 === null) return '';
  const begins = stretch.kind !== 'swim' || lanes.some(({ state, next }) => state === 'pending' && next!.at! <= t0);
  return begins ? 'starts in' : 'clock starts in';
}
