/*
 * Leaves whose time came while the program was not running: the record counts them, but nobody was called.
 */

import { useMemo, type ReactElement } from 'react';
import { leavesText } from '../../../app/core/words/leaves.ts';
import type { Leave } from '../../../app/core/run/record.ts';
import type { DeckRun } from '../../link/store.ts';
import { clockTimeToSecond } from '../../../app/core/words/time/time-of-day.ts';
import styles from './afterwards.module.css';

interface NotCalledProps {
  /** Every leave of the run. */
  readonly leaves: readonly Leave[];
  readonly run: Pick<DeckRun, 'away' | 'openedAtTimeOfDay'>;
}

/** List every set. */
const ALL = Infinity;

export function NotCalled({ leaves, run: { away, openedAtTimeOfDay } }: NotCalledProps): ReactElement | null {
  const spans = useMemo(() => {
    return away
      .map(({ from, to }) => ({ from, to, missed: leaves.filter(({ at }) => at > from && at <= to) }))
      .filter(({ missed }) => missed.length > 0);
  }, [leaves, away]);
  if (spans.length === 0) return null;
  const timeOf = (at: number): string => clockTimeToSecond(openedAtTimeOfDay + at);
  return (
    <section aria-label="Not called">
      <h2>Not called, because the program was not there</h2>
      <p>A screen that stayed open kept going by itself and may have shown these leaves.</p>
      <ul className={styles.marks}>
        {spans.map(({ from, to, missed }) => (
          <li key={from}>
            <b>
              {timeOf(from)} to {timeOf(to)}
            </b>{' '}
            {leavesText(missed, ALL)}
          </li>
        ))}
      </ul>
    </section>
  );
}
