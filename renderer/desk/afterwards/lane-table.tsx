/*
 * What each lane did against the plan. A plain table: React Aria's moves from cell to cell by arrow keys, and here is
 * nothing to do in a cell. Its roles are written out because on a phone it is laid out as blocks, which would take them
 * away.
 */

import type { ReactElement } from 'react';
import type { RecordLaneJson } from '../../../app/core/record/tables/record-json.ts';
import type { ReviewJson } from '../../../app/core/record/tables/review-json.ts';
import type { LengthUnit } from '../../../app/core/units.ts';
import { count } from '../../../app/core/words/phrase.ts';
import { clockTimeToSecond } from '../../../app/core/words/time/time-of-day.ts';
import tableStyles from '../panel/table.module.css';
import styles from './record-view.module.css';

const HEADS = ['Leaves', 'Distance', 'First leave', 'Last leave', 'By part'] as const;

export function LaneTable({ review }: { readonly review: ReviewJson }): ReactElement {
  const { record, unit, plannedReps, openedAtTimeOfDayMs } = review;
  const timeOf = (leave: { readonly atMs: number } | undefined): string =>
    leave ? clockTimeToSecond(openedAtTimeOfDayMs + leave.atMs) : '–';
  return (
    <table className={`${tableStyles.table} ${styles.lanes}`} role="table">
      <caption>What each lane did</caption>
      <thead role="rowgroup">
        <tr role="row">
          <th role="columnheader" scope="col">
            Lane
          </th>
          {HEADS.map((head) => (
            <th role="columnheader" scope="col" key={head}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {record.lanes.map((lane, index) => {
          const { leaves, distance, plannedDistance } = lane;
          const cells = [
            `${leaves.length} of ${plannedReps[index]}`,
            `${distance} of ${plannedDistance} ${unit}`,
            timeOf(leaves[0]),
            timeOf(leaves[leaves.length - 1]),
            byPart(lane, unit) || 'nothing',
          ];
          return (
            <tr role="row" key={lane.lane}>
              <th role="rowheader" scope="row">
                Lane {lane.lane}
              </th>
              {cells.map((text, cell) => (
                <td role="cell" data-head={HEADS[cell]} key={cell}>
                  {text}
                </td>
              ))}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** "Warm-up 400 m, Main set 1050 m"; leaves where they have no distance. */
function byPart({ leaves }: RecordLaneJson, unit: LengthUnit): string {
  const parts = new Map<string, { leaves: number; tenths: number }>();
  for (const { part, distance } of leaves) {
    const sum = parts.get(part) ?? { leaves: 0, tenths: 0 };
    parts.set(part, { leaves: sum.leaves + 1, tenths: sum.tenths + Math.round(distance * 10) });
  }
  return Array.from(parts)
    .map(
      ([part, { leaves: swum, tenths }]) => `${part} ${tenths > 0 ? `${tenths / 10} ${unit}` : count(swum, 'leave')}`,
    )
    .join(', ');
}
