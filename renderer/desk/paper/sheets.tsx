/*
 * What can be printed of a session: a sheet as on a whiteboard, a sheet a lane in big type, and the timetable.
 */

import type { CSSProperties, ReactElement } from 'react';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { distanceIn } from '../../../app/core/words/distance.ts';
import { poolText } from '../../../app/core/words/distance.ts';
import { commaed } from '../../../app/core/words/phrase.ts';
import { LanesHead, Rows } from '../timetable/timetable-parts.tsx';
import { timetableOf } from '../timetable/timetable-rows.ts';
import { Caution } from './caution.tsx';
import { boardParts, laneSheets, type SheetLine, type SheetPart } from './sheet-lines.ts';
import { sheetSize, timingRows } from './sheet-size.ts';
import styles from './sheets.module.css';

interface SheetProps {
  readonly plan: Plan;
}

/** In px. */
const BOARD_TITLE = 50;
const LANE_TITLE = 85;

export function BoardSheet({ plan }: SheetProps): ReactElement {
  const parts = boardParts(plan);
  const { pool } = plan.session;
  const table = timetableOf(plan);
  const facts = commaed(poolText(pool.length, pool.unit), table.length, table.ends ?? '');
  return (
    <article className={styles.sheet} aria-label="Whiteboard sheet">
      <h2>{plan.session.title ?? 'Session'}</h2>
      <p className={styles.facts}>{facts}</p>
      <Parts parts={parts} type={sheetSize(parts, BOARD_TITLE, facts)} />
      <Caution />
    </article>
  );
}

export function LaneSheets({ plan }: SheetProps): ReactElement {
  return (
    <>
      {laneSheets(plan).map(({ lane, who, distance, parts }) => {
        const facts = commaed(plan.session.title ?? 'Session', who, distance);
        return (
          <article key={lane} className={styles.sheet} aria-label={`Lane ${lane}, sheet`}>
            <h2 className={styles.lane}>Lane {lane}</h2>
            <p className={styles.facts}>{facts}</p>
            <Parts parts={parts} type={sheetSize(parts, LANE_TITLE, facts)} />
            <Caution />
          </article>
        );
      })}
    </>
  );
}

interface PartsProps {
  readonly parts: readonly SheetPart[];
  /** In px. */
  readonly type: number;
}

/** A rem is 16 px where nobody has changed it. */
function typeOf(size: number): CSSProperties {
  return { '--type': `${size / 16}rem` } as CSSProperties;
}

function Parts({ parts, type }: PartsProps): ReactElement {
  return (
    <div className={styles.parts} style={typeOf(type)}>
      {parts.map(({ key, name, when, lines }) => (
        <section key={key} className={styles.part}>
          <h3>
            {name} <span>{when}</span>
          </h3>
          <ul>
            {lines.map((line) => (
              <li key={line.key} data-depth={line.depth}>
                <span>{line.words}</span> <Timings line={line} type={type} />
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

/** Lanes that differ stand in columns, read downwards. */
function Timings({ line, type }: { readonly line: SheetLine; readonly type: number }): ReactElement {
  const { timings } = line;
  if (timings.length < 2) return <b>{timings[0]?.words}</b>;
  const rows = { '--rows': timingRows(line, type) } as CSSProperties;
  return (
    <dl className={styles.lanes} style={rows}>
      {timings.map(({ lanes, words }) => (
        <div key={lanes}>
          <dt>{lanes}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  );
}

export function TimetableSheet({ plan }: SheetProps): ReactElement {
  const table = timetableOf(plan);
  const { unit } = plan.session.pool;
  return (
    <article className={styles.sheet} aria-label="Timetable sheet" data-many={table.lanes.length > 6 ? '' : undefined}>
      <h2>{plan.session.title ?? 'Session'}</h2>
      <p className={styles.facts}>{commaed(table.length, table.ends ?? '')}</p>
      <table className={styles.table}>
        <LanesHead lanes={table.lanes} />
        <tbody>
          <Rows rows={table.squad} lanes={table.lanes.length} />
        </tbody>
        {table.parts.map(({ key, name, starts, length, rows, distances }) => (
          <tbody key={key}>
            <tr className={styles.heading}>
              <th scope="row">
                {starts} {name}, {length}
              </th>
              {distances.map((distance, lane) => (
                <td key={lane}>{distance === '0' ? '' : `${distance} ${unit}`}</td>
              ))}
            </tr>
            <Rows rows={rows} lanes={table.lanes.length} />
          </tbody>
        ))}
        <tfoot>
          <tr className={styles.heading}>
            <th scope="row">In all</th>
            {table.totals.distances.map((distance, lane) => (
              <td key={lane}>{distanceIn(distance, unit)}</td>
            ))}
          </tr>
        </tfoot>
      </table>
      <p className={styles.facts}>≈ marks an estimate from usual swim times.</p>
      <Caution />
    </article>
  );
}
