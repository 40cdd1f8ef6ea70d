/*
 * The clock of the coach's screens. Its digits are written straight into their element, past React.
 */

import type { ReactElement } from 'react';
import { SECOND } from '../../../app/core/units.ts';
import { clockReading, type ClockChoice } from '../../../app/core/run/readings.ts';
import { countdownText, readingOn } from '../../../app/core/words/time/clock.ts';
import { readingLeft } from '../../../app/core/words/time/reading.ts';
import type { Frames, RunMoment } from './frames.ts';
import { useDigits, useDrawn } from './use-deck.ts';
import styles from './clock.module.css';

interface ClockProps {
  readonly frames: Frames;
  readonly choice: ClockChoice;
}

export function Clock({ frames, choice }: ClockProps): ReactElement {
  const digits = useDigits(frames, (moment) => clockText(moment, choice));
  const label = useDrawn(frames, (moment) => clockLabel(moment, choice));
  return (
    <div className={styles.clock}>
      <span className={styles.label} ref={label} />
      <span className={styles.digits} role="timer" aria-label="Clock" ref={digits} />
    </div>
  );
}

/** Beside the clock before a start: "starts in", or "stopped" if all lanes are and nothing counts down. */
export function clockLabel(moment: RunMoment | null, choice: ClockChoice): string {
  const t0 = moment?.view.clock.t0 ?? null;
  if (moment && t0 !== null && moment.view.t < t0 && moment.view.allStopped) return 'stopped';
  return moment && choice === 'stretch' ? countdownText(moment.view) : '';
}

/** What the clock shows. Its last 10 s before a start count down; it shows 0:00 before the first start. */
export function clockText(moment: RunMoment | null, choice: ClockChoice): string {
  if (!moment) return '–:––';
  const { view } = moment;
  const left = startsIn(moment, choice);
  if (left !== null) return readingLeft(left);
  const shown = clockReading(choice, view.clock, view.t) ?? 0;
  return readingOn(choice, Math.floor(shown / SECOND) * SECOND);
}

function startsIn(moment: RunMoment | null, choice: ClockChoice): number | null {
  return choice === 'stretch' && moment ? moment.view.clock.startsIn : null;
}
