/*
 * The screen's clock at a moment, and times of the run as it shows them.
 */

import { clockReading, readingAt, type ClockChoice } from '../../../app/core/run/readings.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { MINUTE, SECOND, type Millis } from '../../../app/core/units.ts';
import { countdownText, leaveReading, readingOn as shownOn, tailReading } from '../../../app/core/words/time/clock.ts';
import { readingLeft, secondsLeft } from '../../../app/core/words/time/reading.ts';

/** What the clock will show at a time of the run; empty where it shows nothing yet. */
export function readingOn(choice: ClockChoice, view: RunView, at: Millis | null): string {
  return at === null ? '' : (leaveReading(choice, view, at) ?? '');
}

/** The same of a swimmer behind the lead, in seconds that can be left on. */
export function tailReadingOn(choice: ClockChoice, view: RunView, at: Millis): string {
  return tailReading(choice, view, at) ?? '';
}

/** A clock that has not started stands at 0:00; in a countdown it shows the seconds that are left. */
export function clockFace(view: RunView, choice: ClockChoice): { readonly text: string; readonly label: string } {
  const { startsIn } = view.clock;
  const label = countdownText(view);
  if (startsIn !== null && choice === 'stretch') return { text: readingLeft(startsIn), label };
  const shown = clockReading(choice, view.clock, view.t) ?? 0;
  const text = shownOn(choice, Math.floor(shown / SECOND) * SECOND);
  // The clock that starts is the stretch's, which is not on this screen.
  const counts = startsIn !== null && label === 'starts in';
  return { text, label: counts ? `${label} ${secondsLeft(startsIn)}` : '' };
}

/**
 * Where a 60-second hand stands at a time of the run, in ms past its top: at the seconds of that time's reading. A start
 * that is ahead is counted from as soon as it is known, so that the hand does not jump when it comes.
 */
export function handAt(choice: ClockChoice, { clock }: RunView, at: Millis): Millis {
  const shows = readingAt(choice, clock, at) ?? at + clock.poolPhase;
  return ((shows % MINUTE) + MINUTE) % MINUTE;
}
