/*
 * What a timetable is made of wherever it stands, on the screen or on paper: its head with the lanes, and its rows.
 */

import type { ReactElement } from 'react';
import type { TimetableRow } from './timetable-rows.ts';

/** lanes: their numbers. */
export function LanesHead({ lanes }: { readonly lanes: readonly number[] }): ReactElement {
  return (
    <thead>
      <tr>
        <th scope="col">Part</th>
        {lanes.map((lane) => (
          <th key={lane} scope="col">
            Lane {lane}
          </th>
        ))}
      </tr>
    </thead>
  );
}

interface RowsProps {
  readonly rows: readonly TimetableRow[];
  /** How many. */
  readonly lanes: number;
}

export function Rows({ rows, lanes }: RowsProps): ReactElement[] {
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
