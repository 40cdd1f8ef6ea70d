/*
 * One run of the history, with what the coach adds to it.
 */

import type { ReactElement } from 'react';
import { clockTime } from '../../../app/core/words/time/time-of-day.ts';
import { AddedPanel } from '../afterwards/added/added-panel.tsx';
import { RecordView } from '../afterwards/record-view.tsx';
import type { CssOffered } from '../afterwards/times-table.tsx';
import type { KeptRunState } from '../afterwards/use-kept-run.ts';
import { whenText } from '../afterwards/when-text.ts';
import pageStyles from '../panel/page.module.css';
import styles from './history-room.module.css';

interface RunReviewProps {
  readonly kept: KeptRunState;
  onCss(offered: CssOffered): void;
  onRefused(why: string): void;
}

export function RunReview({ kept, onCss, onRefused }: RunReviewProps): ReactElement {
  const { given, adding, added, refused } = kept;
  if (!given) {
    return <p className={`${pageStyles.card} ${styles.whole}`}>{refused ?? 'Reading what was kept…'}</p>;
  }
  const { record } = given;
  const until = clockTime(given.openedAtTimeOfDayMs + record.durationMs);
  return (
    <>
      <main className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.main}`} aria-label="The record" tabIndex={0}>
        <h2 className={styles.title}>{record.title}</h2>
        <p className={styles.when}>{whenText(record, until)}</p>
        {given.said.map((text) => (
          <p key={text} className={styles.said}>
            {text}
          </p>
        ))}
        <RecordView review={given} added={added.added} onCss={onCss} />
      </main>
      <aside className={`${pageStyles.card} ${pageStyles.scrolls} ${styles.added}`} aria-label="Added afterwards">
        <AddedPanel review={given} adding={adding} added={added.added} trouble={added.refused} onRefused={onRefused} />
      </aside>
    </>
  );
}
