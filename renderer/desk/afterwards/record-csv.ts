/*
 * The record of a run as a table for a spreadsheet: a row for every leave and every command, by time.
 */

import { csvText, secondsCell, wordsCell } from '../../../app/core/csv.ts';
import { wasCalled, type Away, type Leave } from '../../../app/core/run/record.ts';
import type { RunView } from '../../../app/core/run/view.ts';
import { leavesIn } from '../../../app/core/run/view/record.ts';
import type { Millis } from '../../../app/core/units.ts';
import {
  commandRecords,
  RECORD_TIMES,
  type CommandRecord,
  type RunOfCommands,
} from '../../../app/core/run/feedback/command-record.ts';
import { distanceText } from '../../../app/core/words/distance.ts';
import { twoDigits } from '../../../app/core/words/time/reading.ts';
import { roundCell } from '../../../app/core/words/round.ts';
import { clockTimeToSecond } from '../../../app/core/words/time/time-of-day.ts';
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
  `words (${RECORD_TIMES})`,
  'swimmers',
  'gap in s',
];

/** What a record needs besides the view of the run. */
export interface RecordedRun extends RunOfCommands {
  /** When the program was not running. */
  readonly away: readonly Away[];
}

/** At the same time leaves come before commands. */
export function recordCsv(view: RunView, run: RecordedRun): string {
  const { openedAtTimeOfDay: openedAt, away } = run;
  const parts = partNames(view.plan);
  const { unit } = view.plan.session.pool;
  const when = (at: Millis): string[] => [clockTimeToSecond(openedAt + at), secondsCell(at)];
  const rowOf = (leave: Leave): string[] => {
    const { lane, rep, at, swimmers, gap } = leave;
    return [
      wasCalled(leave, away) ? 'leave' : 'leave not called',
      ...when(at),
      `${lane}`,
      wordsCell(parts.get(rep.set.line) ?? ''),
      `${rep.set.line}`,
      roundCell(rep.set.rounds),
      `${rep.rep}`,
      `${rep.of}`,
      distanceText(rep.distance),
      unit,
      wordsCell(rep.words),
      `${swimmers}`,
      secondsCell(gap),
    ];
  };
  const leaves = leavesIn(view).map((leave) => ({ at: leave.at, row: rowOf(leave) }));
  const commands = commandRecords(run).map((record) => ({
    at: record.at,
    row: [whatOf(record), ...when(record.at), record.lanes.join(' '), ...NO_REP, wordsCell(wordsOf(record)), '', ''],
  }));
  const rows = [...leaves, ...commands].sort((a, b) => a.at - b.at);
  return csvText([HEADER, ...rows.map(({ row }) => row)]);
}

/** The columns from part to unit, which only leaves fill. */
const NO_REP: readonly string[] = ['', '', '', '', '', '', ''];

function whatOf({ command, undone }: CommandRecord): string {
  return undone ? `${command.do}, undone` : command.do;
}

/** The words of a mark, or what another command did. */
function wordsOf({ command, did }: CommandRecord): string {
  return command.do === 'mark' ? (command.words ?? '') : did;
}

/** A name that every file system takes, from the session's title and the local day. */
export function recordFileName(title: string | null, day: Date): string {
  const name = (title ?? 'Session')
    .replace(/[^\p{L}\p{N} ,()-]+/gu, ' ')
    .trim()
    .slice(0, 60)
    .trim();
  return `${name === '' ? 'Session' : name} ${day.getFullYear()}-${twoDigits(day.getMonth() + 1)}-${twoDigits(day.getDate())}.csv`;
}
