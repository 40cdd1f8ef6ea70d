/*
 * A session as lines on paper: for everybody, and for one lane.
 */

import type { Plan } from '../../../app/core/plan/plan.ts';
import { spanText } from '../../../app/core/words/time/reading.ts';
import { distanceIn } from '../../../app/core/words/distance.ts';
import { commaed, count } from '../../../app/core/words/phrase.ts';
import { timetableOf, type Timetable, type TimetableRow } from '../timetable/timetable-rows.ts';

export interface SheetPart {
  readonly key: number;
  readonly name: string;
  /** "19:30, 8:00". */
  readonly when: string;
  readonly lines: readonly SheetLine[];
}

export interface SheetLine {
  readonly key: string;
  readonly depth: number;
  readonly words: string;
  /** "on 1:30, hold 1:20"; '' for a line that has no interval. */
  readonly interval: string;
}

export interface LaneSheet {
  readonly lane: number;
  /** "5 swimmers, 5 s apart", or their names. */
  readonly who: string;
  readonly distance: string;
  readonly parts: readonly SheetPart[];
}

/** Intervals in lane order, once where all lanes have the same. */
export function boardParts(plan: Plan): readonly SheetPart[] {
  return partsOf(timetableOf(plan), ({ lanes }) => onText(new Set(lanes).size === 1 ? lanes[0]! : lanes.join(' / ')));
}

export function laneSheets(plan: Plan): readonly LaneSheet[] {
  const table = timetableOf(plan);
  return plan.session.lanes.map(({ number, swimmers, names, gap }, index) => ({
    lane: number,
    who: commaed(
      names.length > 0 ? names.join(', ') : count(swimmers, 'swimmer'),
      swimmers > 1 ? `${spanText(gap)} apart` : '',
    ),
    distance: distanceIn(table.totals.distances[index]!, plan.session.pool.unit),
    parts: partsOf(table, ({ lanes }) => (lanes[index] === SITS_OUT ? null : onText(lanes[index] ?? ''))),
  }));
}

/** How the timetable marks a lane that does not swim a line. */
const SITS_OUT = '–';

/** How many lines it is, which says how large they may be. */
export function lineCount(parts: readonly SheetPart[]): number {
  return parts.reduce((sum, { lines }) => sum + lines.length + 1, 0);
}

/** intervalOf: null where a line is left out. */
function partsOf(table: Timetable, intervalOf: (row: TimetableRow) => string | null): readonly SheetPart[] {
  return table.parts.map(({ key, name, starts, length, rows }) => {
    const lines: SheetLine[] = [];
    for (const row of rows) {
      const interval = row.lanes.length === 0 ? '' : intervalOf(row);
      if (interval !== null) lines.push({ key: row.key, depth: row.depth, words: row.words, interval });
    }
    return { key, name, when: `${starts}, ${length}`, lines };
  });
}

function onText(interval: string): string {
  return interval === '' ? '' : `on ${interval}`;
}
