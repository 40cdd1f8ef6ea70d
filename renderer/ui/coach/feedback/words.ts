/*
 * Phrases of the coach's screens: how lanes stand, and what a button would do.
 */

import type { ClockChoice } from '../../../../app/core/run/readings.ts';
import type { TimeText } from '../../../../app/core/run/feedback/feedback.ts';
import type { NextRep, RunView } from '../../../../app/core/run/view.ts';
import { countIn } from '../../../../app/core/run/view/count.ts';
import { tried } from '../../../../app/core/run/view/trial.ts';
import { stoppedEarlier } from '../../../../app/core/run/view/stops.ts';
import type { Millis } from '../../../../app/core/units.ts';
import { leaveReading } from '../../../../app/core/words/time/clock.ts';
import { lanesNamed } from '../../../../app/core/words/lanes.ts';
import { count } from '../../../../app/core/words/phrase.ts';
import { repOf, repText } from '../../../../app/core/words/rep.ts';
import { secondsLeft } from '../../../../app/core/words/time/reading.ts';
import { followingText, kindText, pauseText } from '../../../../app/core/words/stretch.ts';

/** "3 of 4", shown after what is swum; '' if there is only one rep. */
export function whichRep(next: NextRep): string {
  return next.of > 1 ? repOf(next) : '';
}

/** A time of the run as the chosen clock will show it; a dash if that clock does not run yet. */
export function leaveText(choice: ClockChoice, view: Pick<RunView, 'clock'>, at: Millis): string {
  return leaveReading(choice, view, at) ?? '–';
}

/** Times written as readings of a clock. */
export function readingsOf(choice: ClockChoice): TimeText {
  return (view, at) => leaveText(choice, view, at);
}

/**
 * When a Resume or Rejoin of all stopped lanes, or of those named, would send the first of them off: "goes 6:15", with those that were
 * stopped earlier named: "lane 3 too, goes 6:15"; '' where none is stopped, or for another action.
 */
export function goesText(view: RunView, action: string, clock: ClockChoice, lanes: readonly number[] = []): string {
  if (action !== 'resume' && action !== 'rejoin') return '';
  const isMeant = ({ number }: { readonly number: number }): boolean => lanes.length === 0 || lanes.includes(number);
  const stopped = view.lanes.filter((lane) => lane.state === 'stopped' && isMeant(lane));
  if (stopped.length === 0) return '';
  const times = stopped.map(({ resumeAt, rejoinAt }) => (action === 'resume' ? resumeAt : rejoinAt));
  const first = Math.min(...times.map((time) => time ?? Infinity));
  if (first === Infinity) return action === 'resume' ? 'nothing to resume' : 'nothing left of it';
  const earlier = stoppedEarlier(view.lanes.filter(isMeant));
  const also = earlier.length > 0 ? `${lanesNamed(earlier)} too, ` : '';
  return `${also}goes ${leaveText(clock, view, first)}`;
}

/** What Start would begin early, and which lanes lose what they have left: "the break, cuts lane 2 short". */
export function startNowText({ t, phase, clock, stretch, following, lanes }: RunView): string {
  // If the current stretch has not begun, it begins early itself, and nobody loses anything.
  const isAhead = phase === 'going' && t < clock.t0!;
  const lost = isAhead ? [] : lanes.filter((lane) => lane.pending).map(({ number }) => number);
  const begins = isAhead ? stretch : following;
  const what = `the ${!begins ? 'next set' : isAhead ? kindText(begins) : followingText(begins)}`;
  if (lost.length === 0) return what;
  return `${what}, cuts ${lost.length > 2 ? count(lost.length, 'lane') : lanesNamed(lost)} short`;
}

/** When Start would begin what: "in 14 s: 4 x 50 fast", "at once: talk 1:30 turns"; '' where it is refused. */
export function startText(view: RunView): string {
  const trial = tried(view, { do: 'start' });
  if (!trial.ok) return '';
  const { stretch, clock, t } = trial.after;
  const when = stretch.kind === 'swim' ? `in ${secondsLeft(clock.t0! - t)} s` : 'at once';
  return `${when}: ${stretchText(trial.after)}`;
}

/** What a waiting stretch is called: its first set, with the reps that cuts have left, or its talk or break. */
export function stretchText({ stretch, stretches, cuts, plan }: RunView): string {
  if (stretch.kind !== 'swim') return pauseText(stretch);
  const lane = stretch.lanes.findIndex(({ reps }) => reps.length > 0);
  const first = stretch.lanes[lane]?.reps[0];
  if (!first) return stretch.part;
  const { of } = countIn({ cuts, stretches }, first, lane);
  return `${of > 1 ? `${of} x ` : ''}${repText(first, plan.session.pool.unit)}`;
}
