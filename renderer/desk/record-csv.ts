/*
 * The record of a run for a spreadsheet: a row for every leave that happened and every mark, by time.
 */

import { csvText, secondsCell, wordsCell } from '../../app/core/csv.ts';
import { distanceText } from '../../app/core/lengths.ts';
import { leavesOf, wasCalled, type Away, type Leave } from '../../app/core/run/record.ts';
import type { RunState } from '../../app/core/run/state.ts';
import type { Millis } from '../../app/core/units.ts';
import { clockTimeToSecond } from './hour.ts';
import { partNames } from './lane-record.ts';

const HEADER = [
  'what',
  'time of day',
  'in s from the opening',
  'lane',
  'part',
  'line',
  'round',
  'rep',
  'of',
  'distance',
  'unit',
  'words',
  'swimmers',
  'gap in s',
];

/**
 * openedAt: local time of day at the run's t = 0, in ms after midnight; away: when the program was not there.
 * Leaves before marks of the same moment.
 */
export function recordCsv(state: RunState, openedAt: Millis, away: readonly Away[]): string {
  const parts = partNames(state);
  const { unit } = state.plan.session.pool;
  const when = (at: Millis): string[] => [clockTimeToSecond(openedAt + at), secondsCell(at)];
  const rowOf = (leave: Leave): string[] => {
    const { lane, rep, at, swimmers, gap } = leave;
    return [
      wasCalled(leave, away) ? 'leave' : 'leave not called',
      ...when(at),
      `${lane}`,
      wordsCell(parts.get(rep.set.line) ?? ''),
      `${rep.set.line}`,
      rep.set.rounds.map(({ round, of }) => `${round} of ${of}`).join('; '),
      `${rep.rep}`,
      `${rep.of}`,
      distanceText(rep.distance),
      unit,
      wordsCell(rep.set.words),
      `${swimmers}`,
      secondsCell(gap),
    ];
  };
  const leaves = leavesOf(state).map((leave) => ({ at: leave.at, row: rowOf(leave) }));
  const marks = state.marks.map(({ at, lanes, words }) => ({
    at,
    row: ['mark', ...when(at), lanes.join(' '), '', '', '', '', '', '', '', wordsCell(words), '', ''],
  }));
  const rows = [...leaves, ...marks].sort((a, b) => a.at - b.at);
  return csvText([HEADER, ...rows.map(({ row }) => row)]);
}

/** A name that every file system takes, from the session's title and the local day. */
export function recordFileName(title: string | null, day: Date): string {
  const two = (number: number): string => `${number}`.padStart(2, '0');
  const name = (title ?? 'Session')
    .replace(/[^\p{L}\p{N} ,()-]+/gu, ' ')
    .trim()
    .slice(0, 60)
    .trim();
  return `${name === '' ? 'Session' : name} ${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}.csv`;
}
