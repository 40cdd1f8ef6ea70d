/*
 * The record for a spreadsheet (RFC 4180): a row for every leave that happened, every command that was accepted and
 * every time in which the program was not running, by time; below them who was there, how hard it was, and the notes.
 */

import { csvText, secondsCell, wordsCell } from '../../csv.ts';
import { RECORD_TIMES } from '../../run/feedback/command-record.ts';
import { markText } from '../mark-text.ts';
import { REP_HEADS, repCells } from '../../rep-cells.ts';
import { clockTimeToSecond } from '../../words/time/time-of-day.ts';
import type { LengthUnit, Millis } from '../../units.ts';
import { paceOf, toTenth } from '../times/hand-time.ts';
import type { AwayRecord, GivenRecord, LeaveRecord, RunRecord } from '../record.ts';

const HEADER = [
  'what',
  'time of day',
  'in s from the opening',
  'lane',
  'part',
  ...REP_HEADS,
  'swimmers',
  'gap in s',
  'hand time in s',
  'pace per 100 in s',
  `words (${RECORD_TIMES})`,
];

/** Leaves before commands of the same moment. */
export function recordCsv(record: RunRecord): string {
  const when = (at: Millis): string[] => [clockTimeToSecond(record.openedAtTimeOfDay + at), secondsCell(at)];
  const leaves = record.lanes.reduce((all, lane) => all.concat(lane.leaves), [] as LeaveRecord[]);
  const rows = [
    ...leaves.map((leave) => ({ at: leave.at, cells: leaveCells(leave, record.unit, when) })),
    ...record.commands.map((command) => ({ at: command.at, cells: commandCells(command, when) })),
    ...record.notRunning.map((away) => ({ at: away.from, cells: awayCells(away, when) })),
  ];
  return csvText([HEADER, ...rows.sort((a, b) => a.at - b.at).map(({ cells }) => cells), ...addedRows(record)]);
}

function leaveCells(leave: LeaveRecord, unit: LengthUnit, when: (at: Millis) => string[]): string[] {
  const { lane, rep, at, swimmers, gap, time } = leave;
  const pace = time === null ? null : paceOf(toTenth(time), rep.distance);
  return [
    leave.called ? 'leave' : 'leave not called',
    ...when(at),
    `${lane}`,
    wordsCell(leave.part),
    ...repCells(rep, unit),
    `${swimmers}`,
    secondsCell(gap),
    tenthsCell(time),
    tenthsCell(pace),
    wordsCell(rep.words),
  ];
}

function commandCells(given: GivenRecord, when: (at: Millis) => string[]): string[] {
  const { at, command, lanes, undone, did, added } = given;
  const what = undone ? `${command.do}, undone` : command.do;
  const words = command.do === 'mark' ? markText(command.words ?? '', added) : did;
  return [what, ...when(at), lanes.join(' '), ...NO_REP, wordsCell(words)];
}

function awayCells({ from, words }: AwayRecord, when: (at: Millis) => string[]): string[] {
  return ['not running', ...when(from), '', ...NO_REP, wordsCell(words)];
}

/** From part to pace: what only leaves have. */
const NO_REP: readonly string[] = new Array<string>(11).fill('');

/** What the coach added afterwards, which has no time. */
function addedRows({ added: { attendance, effort, notes }, load }: RunRecord): readonly (readonly string[])[] {
  const row = (what: string, words: string, lane = '', swimmers = ''): readonly string[] => {
    return [what, '', '', lane, ...new Array<string>(7).fill(''), swimmers, '', '', '', wordsCell(words)];
  };
  return [
    ...(attendance ?? []).map(({ lane, swimmers, names }) =>
      row('there', (names ?? []).join(', '), `${lane}`, `${swimmers}`),
    ),
    ...(effort === null ? [] : [row('effort', `${effort}`), row('load', `${load}`)]),
    ...notes.map((note) => row('note', note)),
  ];
}

/** In seconds, to the tenth: a hand is no better. */
function tenthsCell(time: Millis | null): string {
  return time === null ? '' : secondsCell(toTenth(time));
}
