/*
 * The timetable for a spreadsheet (RFC 4180): a header and one row for each leave, lane by lane.
 */

import { csvText, secondsCell, wordsCell } from '../../core/csv.ts';
import type { Plan, Rep } from '../../core/plan/plan.ts';
import type { PlannedTime } from '../../core/plan/schedule.ts';
import { MINUTE, type Millis } from '../../core/units.ts';
import { REP_HEADS, repCells } from '../../core/rep-cells.ts';
import { reading } from '../../core/words/time/reading.ts';
import { clockTimeToSecond } from '../../core/words/time/time-of-day.ts';

const HEADER = [
  'lane',
  'stretch',
  'part',
  ...REP_HEADS,
  'words',
  'leave on the clock',
  'time of day',
  'leave in s',
  'interval in s',
  'target in s',
  'estimated',
  'untimed',
];

/** The rows as text. `times`: one for each stretch of the plan. The file counts stretches from 1, for people. */
export function timetableCsv(plan: Plan, times: readonly PlannedTime[]): string {
  const rows = [HEADER];
  plan.session.lanes.forEach((lane, index) => {
    plan.stretches.forEach((stretch, place) => {
      const { start } = times[place]!;
      for (const rep of stretch.lanes[index]?.reps ?? []) {
        rows.push([`${lane.number}`, `${place + 1}`, wordsCell(stretch.part), ...leaveCells(plan, rep, start)]);
      }
    });
  });
  return csvText(rows);
}

function leaveCells(plan: Plan, rep: Rep, start: Millis): string[] {
  const { startsAt, pool } = plan.session;
  const at = start + rep.offset;
  return [
    ...repCells(rep, pool.unit),
    wordsCell(rep.words),
    reading(rep.offset),
    startsAt === null ? '' : clockTimeToSecond(startsAt * MINUTE + at),
    secondsCell(at),
    secondsCell(rep.interval),
    rep.target === null ? '' : secondsCell(rep.target),
    rep.estimated ? 'yes' : 'no',
    rep.set.untimed ? 'yes' : 'no',
  ];
}
