/*
 * The history for a spreadsheet (RFC 4180): a row a run, the distances of its lanes in columns of their own.
 */

import { csvText, wordsCell } from '../../csv.ts';
import { MINUTE } from '../../units.ts';
import type { HistoryRun } from '../history/history-run.ts';

const HEADER = [
  'day',
  'opened at',
  'title',
  'ended',
  'minutes',
  'unit',
  'planned distance',
  'distance',
  'were there',
  'effort',
  'load',
] as const;

export function historyCsv(runs: readonly HistoryRun[]): string {
  const seen = new Set<number>();
  for (const { lanes } of runs) for (const { lane } of lanes) seen.add(lane);
  const numbers = Array.from(seen).sort((a, b) => a - b);
  return csvText([
    [...HEADER, ...numbers.map((lane) => `lane ${lane}`), 'notes'],
    ...runs.map((run) => [
      run.openedAt.slice(0, 10),
      run.openedAt.slice(11),
      wordsCell(run.title),
      run.ended,
      (run.durationMs / MINUTE).toFixed(1),
      run.unit,
      `${run.plannedDistance}`,
      `${run.distance}`,
      cell(run.attendance?.reduce((all, { swimmers }) => all + swimmers, 0)),
      cell(run.effort),
      cell(run.load),
      ...numbers.map((number) => cell(run.lanes.find(({ lane }) => lane === number)?.distance)),
      wordsCell(run.notes.join(' ')),
    ]),
  ]);
}

function cell(value: number | null | undefined): string {
  return value === null || value === undefined ? '' : `${value}`;
}
