/*
 * The timetable beside the text: totals first, then part by part what each lane does.
 */

import type { ReactElement, ReactNode } from 'react';
import { reading } from '../../app/core/reading.ts';
import { distanceText } from '../../app/core/lengths.ts';
import type { Plan } from '../../app/core/plan/plan.ts';
import { warningsOf } from '../../app/core/plan/warnings.ts';
import { endsByEstimate } from '../../app/core/plan/estimates.ts';
import { about } from '../ui/estimates.ts';
import { timetableOf, type TimetableRow } from './timetable-rows.ts';

interface TimetableViewProps {
  readonly plan: Plan;
  /** Stands below the totals. */
  readonly children?: ReactNode;
  onLine(line: number): void;
}

export function TimetableView({ plan, children, onLine }: TimetableViewProps): ReactElement {
  const table = timetableOf(plan);
  const warnings = warningsOf(plan);
  const { unit } = plan.session.pool;
  return (
    <section className="timetable" aria-label="Timetable">
      <div className="timetable-head">
        <h2>{plan.session.title ?? 'Session'}</h2>
        <p className="timetable-length">{table.length}</p>
        <p>{table.ends ?? 'no start in the session'}</p>
        {table.totals.over ? (
          <p className="is-over">{`${about(endsByEstimate(plan))}${reading(table.totals.over)} past the finish`}</p>
        ) : null}
      </div>
      {children}
      <table>
        <thead>
          <tr>
            <th scope="col">Part</th>
            {table.lanes.map((lane) => (
              <th key={lane} scope="col">
                Lane {lane}
              </th>
            ))}
          </tr>
        </thead>
        <tbody className="timetable-squad">
          <Rows rows={table.squad} lanes={table.lanes.length} />
        </tbody>
        {table.parts.map((part) => (
          <tbody key={part.key}>
            <tr className="timetable-part">
              <th scope="rowgroup">
                {part.starts} {part.name} <span>{part.length}</span>
              </th>
              {part.distances.map((distance, lane) => (
                <td key={lane}>{distance === '0' ? '' : `${distance} ${unit}`}</td>
              ))}
            </tr>
            <Rows rows={part.rows} lanes={table.lanes.length} />
          </tbody>
        ))}
        <tfoot>
          <tr>
            <th scope="row">In all</th>
            {table.totals.distances.map((distance, lane) => (
              <td key={lane}>
                {distanceText(distance)} {unit}
              </td>
            ))}
          </tr>
        </tfoot>
      </table>
      <h3>{warnings.length === 0 ? 'No warnings' : `To look at again (${warnings.length})`}</h3>
      <ul className="warnings">
        {warnings.map(({ code, line, lane, message }) => (
          <li key={`${code} ${line} ${lane ?? ''}`}>
            <button type="button" className="text-line" onClick={() => onLine(line)}>
              line {line}
            </button>
            {message}
          </li>
        ))}
      </ul>
      <p className="caution">
        ≈ marks estimates: usual swim times, not these swimmers'. Intervals by base and css rest on the paces written.
      </p>
    </section>
  );
}

function Rows({ rows, lanes }: { readonly rows: readonly TimetableRow[]; readonly lanes: number }): ReactElement[] {
  return rows.map((row) => (
    <tr key={row.key}>
      <th scope="row" data-depth={row.depth} colSpan={row.lanes.length === 0 ? lanes + 1 : 1}>
        {row.words}
      </th>
      {row.lanes.map((text, lane) => (
        <td key={lane}>{text}</td>
      ))}
    </tr>
  ));
}
