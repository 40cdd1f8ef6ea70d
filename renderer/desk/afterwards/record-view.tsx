/*
 * The record of a run: what it came to, what each lane did, how long each part took against the plan, the times that
 * were taken, and what was not called.
 */

import type { ReactElement } from 'react';
import type { Afterwards } from '../../../app/core/record/afterwards.ts';
import { sessionLoad } from '../../../app/core/record/history/load.ts';
import type { ReviewJson } from '../../../app/core/record/tables/review-json.ts';
import { MINUTE, SECOND } from '../../../app/core/units.ts';
import { count } from '../../../app/core/words/phrase.ts';
import { readingPast } from '../../../app/core/words/time/reading.ts';
import { clockTimeToSecond } from '../../../app/core/words/time/time-of-day.ts';
import { AddedText } from './added/added-text.tsx';
import { EveningPicture } from './picture/evening-picture.tsx';
import { LaneTable } from './lane-table.tsx';
import { TimesTable, type CssOffered } from './times-table.tsx';
import tableStyles from '../panel/table.module.css';
import styles from './record-view.module.css';

interface RecordViewProps {
  readonly review: ReviewJson;
  readonly added: Afterwards;
  /** Puts a pace that a test came to into a lane. */
  onCss(offered: CssOffered): void;
}

export function RecordView({ review, added, onCss }: RecordViewProps): ReactElement {
  const { record, unit } = review;
  return (
    <div className={styles.record}>
      <Figures review={review} added={added} />
      <EveningPicture review={review} />
      <LaneTable review={review} />
      <Meanings review={review} added={added} />
      <table className={`${tableStyles.table} ${styles.parts}`}>
        <caption>Parts against the plan</caption>
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col">Planned</th>
            <th scope="col">Took</th>
            <th scope="col">Against the plan</th>
          </tr>
        </thead>
        <tbody>
          {record.parts.map(({ part, plannedMs, durationMs }, index) => (
            <tr key={index}>
              <th scope="row">{part || 'Without a heading'}</th>
              <td>{plannedMs === 0 ? 'not in the last text' : readingPast(plannedMs)}</td>
              <td>{durationMs === 0 ? 'not swum' : readingPast(durationMs)}</td>
              <td>{plannedMs === 0 || durationMs === 0 ? '–' : againstText(durationMs, plannedMs)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <TimesTable sets={review.sets} css={review.css} unit={unit} onCss={onCss} />
      <NotCalled review={review} />
      <AddedText review={review} added={added} />
    </div>
  );
}

function Figures({
  review: { record, unit, evening },
  added,
}: Pick<RecordViewProps, 'review' | 'added'>): ReactElement {
  const sum = (of: 'distance' | 'plannedDistance'): number =>
    record.lanes.reduce((all, lane) => all + Math.round(lane[of] * 10), 0) / 10;
  const { bookedMs, stops } = evening;
  const { effort } = added;
  const there = added.attendance?.reduce((all, { swimmers }) => all + swimmers, 0) ?? null;
  return (
    <dl className={styles.figures}>
      <Figure
        what={`${sum('distance')} ${unit}`}
        about={`swum by ${count(record.lanes.length, 'lane')}, of ${sum('plannedDistance')} planned`}
      />
      <Figure
        what={`${Math.round(record.durationMs / MINUTE)} min`}
        about={bookedMs === null ? 'from the opening to the end' : `of ${Math.round(bookedMs / MINUTE)} booked`}
      />
      <Figure what={`${stops.count}`} about={stopsText(stops)} />
      {effort === null ? (
        <Figure what="–" about="load: say how hard it was" className={styles.onScreen} />
      ) : (
        <Figure
          what={`${sessionLoad(effort, record.durationMs)}`}
          about={`load, effort ${effort} × ${readingPast(record.durationMs)}`}
        />
      )}
      {there === null ? null : <Figure what={`${there}`} about="were there" />}
    </dl>
  );
}

/** What the figures at the top mean. */
function Meanings({ review: { evening }, added }: Pick<RecordViewProps, 'review' | 'added'>): ReactElement {
  const { bookedMs, stops } = evening;
  return (
    <ul className={styles.meanings}>
      <li>Planned is what the text said at the end: Edit changes it, cuts and skipped reps do not.</li>
      {bookedMs === null ? null : (
        <li>Minutes are from the opening of the run to its end; booked is from the start to the finish in the text.</li>
      )}
      {added.effort === null ? null : (
        <li>Load is the effort, 0 to 10, times the minutes of the run, from its opening to its end.</li>
      )}
      {stops.count === 0 ? null : (
        <li>Stops are all that you gave. One in a talk or break holds what follows, and counts for no lane.</li>
      )}
    </ul>
  );
}

/** "stops, lanes stood 4:10". */
function stopsText({ count: n, timeMs }: ReviewJson['evening']['stops']): string {
  if (n === 0) return 'stops';
  return `${n === 1 ? 'stop' : 'stops'}, ${timeMs === 0 ? 'no lane stood' : `lanes stood ${readingPast(timeMs)}`}`;
}

interface FigureProps {
  readonly what: string;
  readonly about: string;
  readonly className?: string | undefined;
}

/** As a term with its figure, which is drawn above it. */
function Figure({ what, about, className = '' }: FigureProps): ReactElement {
  return (
    <div className={`${styles.figure} ${className}`}>
      <dt>{about}</dt>
      <dd>{what}</dd>
    </div>
  );
}

/** "0:40 longer", "as planned": of the whole seconds that stand beside it. */
function againstText(took: number, planned: number): string {
  const over = (Math.floor(took / SECOND) - Math.floor(planned / SECOND)) * SECOND;
  if (over === 0) return 'as planned';
  return `${readingPast(Math.abs(over))} ${over > 0 ? 'longer' : 'shorter'}`;
}

function NotCalled({
  review: { notCalled, openedAtTimeOfDayMs },
}: {
  readonly review: ReviewJson;
}): ReactElement | null {
  if (notCalled.length === 0) return null;
  const timeOf = (at: number): string => clockTimeToSecond(openedAtTimeOfDayMs + at);
  return (
    <section aria-label="Not called">
      <h2>Not called, because Lanecall was not running</h2>
      <p>A screen that stayed open kept going by itself and may have shown these leaves.</p>
      <ul className={styles.list}>
        {notCalled.map(({ fromMs, toMs, leaves }) => (
          <li key={fromMs}>
            <b>
              {timeOf(fromMs)} to {timeOf(toMs)}
            </b>{' '}
            {leaves}
          </li>
        ))}
      </ul>
    </section>
  );
}
