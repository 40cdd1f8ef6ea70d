/*
 * What can be printed of a session: a sheet as on a whiteboard, a sheet a lane in big type, and the timetable.
 */

import type { ReactElement } from 'react';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { distanceIn } from '../../../app/core/words/distance.ts';
import { poolText } from '../../../app/core/words/distance.ts';
import { commaed } from '../../../app/core/words/phrase.ts';
import { LanesHead, Rows } from '../timetable/timetable-parts.tsx';
import { timetableOf } from '../timetable/timetable-rows.ts';
import { Caution } from './caution.tsx';
import { boardParts, laneSheets, type LaneTiming, type SheetPart } from './sheet-lines.ts';
import { sheetSize } from './sheet-size.ts';
import styles from './sheets.module.css';

interface SheetProps {
  readonly plan: Plan;
}

/** In px: title and facts. */
const BOARD_HEAD = 75;
const LANE_HEAD = 110;

export function BoardSheet({ plan }: SheetProps): ReactElement {
  const parts = boardParts(plan);
  const { pool } = plan.session;
  const table = timetableOf(plan);
  return (
    <article className={styles.sheet} aria-label="Whiteboard sheet" data-size={sheetSize(parts, BOARD_HEAD)}>
      <h2>{plan.session.title ?? 'Session'}</h2>
      <p className={styles.facts}>{commaed(poolText(pool.length, pool.unit), table.length, table.ends ?? '')}</p>
      <Parts parts={parts} />
      <Caution />
    </article>
  );
}

export function LaneSheets({ plan }: SheetProps): ReactElement {
  return (
    <>
      {laneSheets(plan).map(({ lane, who, distance, parts }) => (
        <article
          key={lane}
          className={styles.sheet}
          aria-label={`Lane ${lane}, sheet`}
          data-size={sheetSize(parts, LANE_HEAD)}
        >
          <h2 className={styles.lane}>Lane {lane}</h2>
          <p className={styles.facts}>{commaed(plan.session.title ?? 'Session', who, distance)}</p>
          <Parts parts={parts} />
          <Caution />
        </article>
      ))}
    </>
  );
}

function Parts({ parts }: { readonly parts: readonly SheetPart[] }): ReactElement {
  return (
    <>
      {parts.map(({ key, name, when, lines }) => (
        <section key={key} className={styles.part}>
          <h3>
            {name} <span>{when}</span>
          </h3>
          <ul>
            {lines.map((line) => (
              <li key={line.key} data-depth={line.depth}>
                <span>{line.words}</span> <Timings timings={line.timings} />
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}

/** Lanes that differ stand one below the other. */
function Timings({ timings }: { readonly timings: readonly LaneTiming[] }): ReactElement {
  if (timings.length < 2) return <b>{timings[0]?.words}</b>;
  return (
    <table className={styles.lanes}>
      <tbody>
        {timings.map(({ lanes, words }) => (
          <tr key={lanes}>
            <th scope="row">{lanes}</th>
            <td>{words}</td>
          </tr>
        ))}
      </tbody>
    </table>
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
