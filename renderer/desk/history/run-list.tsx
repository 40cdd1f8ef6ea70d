/*
 * All runs by date, the newest first: found by words and days, each with what it came to.
 */

import { useState, type ReactElement } from 'react';
import { readDay, weekdayOf } from '../../../app/core/day.ts';
import { ENDED } from '../../../app/core/record/ended-words.ts';
import type { HistoryRun } from '../../../app/core/record/history/history-run.ts';
import { count } from '../../../app/core/words/phrase.ts';
import { Button } from '../../ui/parts/button.tsx';
import { dateOf } from '../library/naming/moved-name.ts';
import type { History } from './use-history.ts';
import styles from './history-room.module.css';

interface RunListProps {
  readonly history: History;
  /** The run that is shown; null for none. */
  readonly shown: string | null;
  onShow(run: string): void;
}

/** So many at first, and with each press: a list of a thousand would be slow to draw. */
const AT_A_TIME = 60;

export function RunList({ history, shown, onShow }: RunListProps): ReactElement {
  const { wanted, found, find } = history;
  const [most, setMost] = useState(AT_A_TIME);
  const runs = found?.runs ?? [];
  return (
    <section aria-label="Runs">
      <h2 className={styles.listHead}>Runs</h2>
      <form role="search" onSubmit={(event) => event.preventDefault()}>
        <label className={styles.field}>
          Find by words, names or day
          <input
            type="search"
            value={wanted.find}
            maxLength={200}
            onChange={({ target }) => find({ ...wanted, find: target.value })}
          />
        </label>
        <details className={styles.between}>
          <summary>Between two days</summary>
          <div className={styles.days}>
            {(['from', 'to'] as const).map((end) => (
              <label className={styles.field} key={end}>
                {end === 'from' ? 'From' : 'To'}
                <input
                  type="date"
                  value={wanted[end] ?? ''}
                  onChange={({ target }) => find({ ...wanted, [end]: target.value === '' ? null : target.value })}
                />
              </label>
            ))}
          </div>
        </details>
      </form>
      <p className={styles.quiet} role="status">
        {listNews(history)}
      </p>
      <ul className={styles.list} aria-label="Runs found">
        {runs.slice(0, most).map((run) => (
          <li key={run.run}>
            <Button className={styles.run} pressed={run.run === shown} onPress={() => onShow(run.run)}>
              <b>{dayOf(run)}</b>
              <span>{run.title}</span>
              <span>{factsOf(run)}</span>
            </Button>
          </li>
        ))}
      </ul>
      {runs.length > most ? (
        <Button
          name="Show more runs"
          hint={`${runs.length - most} more`}
          look="small"
          onPress={() => setMost(most + AT_A_TIME)}
        />
      ) : null}
    </section>
  );
}

function listNews({ found, wanted, refused }: History): string {
  if (refused !== null) return refused;
  if (!found) return 'Looking…';
  const { runs, toCome, said } = found;
  const still = toCome > 0 ? `${count(toCome, 'run')} more to work out…` : '';
  if (runs.length > 0 || toCome > 0) return [count(runs.length, 'run'), still, ...said].filter(Boolean).join('. ');
  const isAll = wanted.find.trim() === '' && wanted.from === null && wanted.to === null;
  return [
    isAll ? 'No run yet: each session that you start leaves one here.' : 'No run has all these words: write fewer.',
    ...said,
  ]
    .filter(Boolean)
    .join(' ');
}

/** "Thu 26 November 2026, 19:30". */
export function dayOf({ openedAt }: Pick<HistoryRun, 'openedAt'>): string {
  const day = readDay(openedAt.slice(0, 10));
  if (!day) return openedAt;
  return `${weekdayOf(day).slice(0, 3)} ${dateOf(day)} ${day.year}, ${openedAt.slice(11, 16)}`;
}

/** "2640 m · effort 6 · left unattended". */
function factsOf({ distance, unit, effort, ended }: HistoryRun): string {
  const facts = [
    `${distance} ${unit}`,
    effort === null ? '' : `effort ${effort}`,
    ended === 'done' ? '' : ENDED[ended],
  ];
  return facts.filter((fact) => fact !== '').join(' · ');
}
