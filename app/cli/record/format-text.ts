/*
 * The record for people, 80 columns wide: what each lane was to swim and swam, how long each part took, and what was
 * changed and marked, with the time of day.
 */

import { dayText, readDay } from '../../core/day.ts';
import { deedsOf } from '../../core/record/deeds.ts';
import { ENDED } from '../../core/record/ended-words.ts';
import type { LaneRecord, RunRecord } from '../../core/record/record.ts';
import type { Millis } from '../../core/units.ts';
import { distanceIn } from '../../core/words/distance.ts';
import { lanesNamed } from '../../core/words/lanes.ts';
import { leavesText } from '../../core/words/leaves.ts';
import { markText } from '../../core/record/mark-text.ts';
import { commaed } from '../../core/words/phrase.ts';
import { readingPast } from '../../core/words/time/reading.ts';
import { clockTime, clockTimeToSecond } from '../../core/words/time/time-of-day.ts';
import { ends, wrapped } from '../timetable/sheet.ts';
import { timeTexts } from './times-text.ts';

const WIDTH = 80;

/** The most sets with leaves that were not called. */
const MOST_NOT_CALLED = 12;

export function recordText(record: RunRecord): string {
  const sections = [laneLines, partLines, notCalledLines, happenedLines, markLines, timeLines, addedLines];
  const blocks = sections.map((section) => section(record)).filter((lines) => lines.length > 0);
  return [headLines(record), ...blocks].map((lines) => lines.map((line) => `${line.trimEnd()}\n`).join('')).join('\n');
}

function headLines(record: RunRecord): readonly string[] {
  const { title, openedAt, openedAtTimeOfDay, duration, ended, run } = record;
  const day = readDay(openedAt.slice(0, 10));
  const until = clockTime(openedAtTimeOfDay + duration);
  const facts = `opened ${clockTime(openedAtTimeOfDay)}, until ${until}, ${readingPast(duration)} in all: ${ENDED[ended]}`;
  return [...ends(title, day ? dayText(day) : '', WIDTH), facts, `run ${run}`];
}

function laneLines(record: RunRecord): readonly string[] {
  const { lanes, unit, openedAtTimeOfDay } = record;
  const time = (at: Millis | undefined): string => (at === undefined ? '–' : clockTimeToSecond(openedAtTimeOfDay + at));
  const row = (...cells: readonly string[]): string =>
    cells.map((cell, index) => cell.padStart(COLUMNS[index]!)).join('');
  return [
    ...head('Lanes'),
    row('lane', 'planned', 'swum', 'leaves', 'first leave', 'last leave'),
    ...lanes.map(({ lane, planned, distance, leaves }) =>
      row(
        `${lane}`,
        distanceIn(planned.distance, unit),
        distanceIn(distance, unit),
        `${leaves.length} of ${planned.leaves}`,
        time(leaves[0]?.at),
        time(leaves[leaves.length - 1]?.at),
      ),
    ),
    ...lanes
      .filter(({ names }) => names !== null)
      .map(namesOf)
      .map(under)
      .flat(),
  ];
}

const COLUMNS = [6, 13, 13, 14, 15, 15];

function namesOf({ lane, names }: LaneRecord): string {
  return `lane ${lane}: ${(names ?? []).join(', ')}`;
}

function partLines({ parts }: RunRecord): readonly string[] {
  return [
    ...head('Parts'),
    ...parts.flatMap(({ part, planned, taken }) =>
      ends(`  ${part}`, `planned ${readingPast(planned)}, took ${readingPast(taken)}`, WIDTH),
    ),
  ];
}

function notCalledLines({ lanes }: RunRecord): readonly string[] {
  const leaves = lanes.flatMap((lane) => lane.leaves.filter(({ called }) => !called));
  if (leaves.length === 0) return [];
  return [...head('Not called, because Lanecall was not running'), ...under(leavesText(leaves, MOST_NOT_CALLED))];
}

function happenedLines(record: RunRecord): readonly string[] {
  const { openedAtTimeOfDay } = record;
  const given = deedsOf(record)
    .filter(({ command }) => command.do !== 'mark')
    .map(({ at, words, undone }) => ({ at, words: undone ? `Undone: ${words}` : words }));
  const away = record.notRunning.map(({ from, words }) => ({ at: from, words }));
  const happened = [...given, ...away].sort((a, b) => a.at - b.at);
  if (happened.length === 0) return [];
  return [
    ...head('What happened'),
    ...happened.flatMap(({ at, words }) => timed(openedAtTimeOfDay + at, words)),
    '',
    '  In brackets stands the clock since the last start.',
  ];
}

function markLines({ commands, openedAtTimeOfDay }: RunRecord): readonly string[] {
  const marks = commands.flatMap(({ at, command, added }) => {
    if (command.do !== 'mark') return [];
    const lanes = command.lanes ? lanesNamed(command.lanes) : '';
    return timed(openedAtTimeOfDay + at, commaed(markText(command.words ?? '', added) || 'a mark', lanes));
  });
  return marks.length === 0 ? [] : [...head('Marks'), ...marks];
}

function timeLines(record: RunRecord): readonly string[] {
  const texts = timeTexts(record);
  return texts.length === 0 ? [] : [...head('Timed by hand, in tenths'), ...texts.flatMap(under)];
}

/** What was added afterwards. */
function addedLines({ added: { notes, attendance, effort }, load }: RunRecord): readonly string[] {
  const lines = [
    ...(attendance ?? []).map(
      ({ lane, swimmers, names }) => `lane ${lane}: ${swimmers} there${names ? `, ${names.join(', ')}` : ''}`,
    ),
    ...(effort === null ? [] : [`effort ${effort} of 10, load ${load}`]),
    ...notes,
  ];
  return lines.length === 0 ? [] : [...head('Added afterwards'), ...lines.flatMap(under)];
}

function head(words: string): readonly string[] {
  return ends(words, '', WIDTH, '─');
}

function under(text: string): readonly string[] {
  return wrapped(text, WIDTH, '  ', '    ');
}

function timed(ofDay: Millis, text: string): readonly string[] {
  return wrapped(`${clockTimeToSecond(ofDay)}  ${text}`, WIDTH, '  ', '            ');
}
