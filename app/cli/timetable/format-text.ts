/*
 * The timetable for people: a sheet to pin up at the end of the lanes. It is 80 columns wide, and up to 132 for more
 * lanes. Lanes that do not fit follow in another table.
 */

import { dayText, type Day } from '../../core/day.ts';
import { endsByEstimate, estimatedFrom, isEstimated } from '../../core/plan/estimates.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { plannedTimes } from '../../core/plan/schedule.ts';
import { timeToFinish, totalsOf, type Totals } from '../../core/plan/totals.ts';
import { warningsOf } from '../../core/plan/warnings/warnings.ts';
import type { Lane } from '../../core/session/session.ts';
import { SECOND, type Millis } from '../../core/units.ts';
import { distanceIn, poolText } from '../../core/words/distance.ts';
import { isWrongHour, wrongHourText } from '../../core/words/time/booking.ts';
import { durationText } from '../../core/words/time/duration.ts';
import { about } from '../../core/words/time/estimate.ts';
import { count } from '../../core/words/phrase.ts';
import { reading, spanText } from '../../core/words/time/reading.ts';
import { endTimeAfter, timeOfDay } from '../../core/words/time/time-of-day.ts';
import { passagesOf } from './passages.ts';
import { columns, ends, laneGroups, wrapped, type Sheet } from './sheet.ts';
import { laneNames, noteLines, partLines, type Timetable } from './text-parts.ts';

const CAUTION =
  'Lanecall times swimmers, it does not watch them: the lifeguard and the coach keep watch. No breath-holding or ' +
  "hypoxic targets; effort targets are for swimmers fit to train. Local pool rules and the coach's licence and " +
  "qualification come first. Mains-powered screens stand outside the pool's zones, set up by a competent person.";

const LEGEND =
  'Leaves are readings of a clock that starts from 0:00 with each stretch. ≈ marks an estimate, or a time based on one.';

const BLANK: readonly string[] = [''];

/** The sheet, with lines ending in LF. The day, if known, is beside the title. */
export function timetableText(plan: Plan, day: Day | null): string {
  const times = plannedTimes(plan);
  const totals = totalsOf(plan, times);
  const table: Timetable = { plan, times, passages: passagesOf(plan), estimatedFrom: estimatedFrom(plan) };
  const sheets = laneGroups(plan.session.lanes.length);
  const { width } = sheets[0]!;
  // A list of lists, not spread into a call: a part may have more lines than a call takes arguments.
  const blocks: (readonly string[])[] = [headLines(table, totals, day, width)];
  for (const sheet of sheets) {
    blocks.push(BLANK, laneLines(plan, sheet));
    for (const part of totals.parts) blocks.push(BLANK, partLines(table, part, sheet));
    blocks.push(BLANK, totalLines(plan, totals, sheet));
  }
  blocks.push(BLANK, warningLines(plan, width), wrapped(LEGEND, width, '', ''), BLANK, wrapped(CAUTION, width, '', ''));
  return blocks
    .flat()
    .map((line) => `${line.trimEnd()}\n`)
    .join('');
}

function headLines({ plan }: Timetable, totals: Totals, day: Day | null, width: number): string[] {
  const { title, pool, startsAt, finishBy } = plan.session;
  const facts = [`pool ${poolText(pool.length, pool.unit)}`];
  if (startsAt !== null) facts.push(`start ${timeOfDay(startsAt)}`);
  if (finishBy !== null) facts.push(`finish ${timeOfDay(finishBy)}`);
  const mark = about(endsByEstimate(plan));
  const wrongHour = wrongHourText(plan.session);
  const end = startsAt === null ? '' : `, to ${mark}${endTimeAfter(startsAt, totals.duration)}`;
  return [
    ...ends(title ?? 'Session', day ? dayText(day) : '', width),
    facts.join(', '),
    ...noteLines(plan.session, null, width),
    `planned length ${mark}${durationText(totals.duration)}${end}${spareText(plan, totals)}`,
    ...(wrongHour === null ? [] : wrapped(wrongHour, width, '', '')),
  ];
}

function spareText(plan: Plan, { duration, over }: Totals): string {
  const available = timeToFinish(plan.session.startsAt, plan.session.finishBy);
  const isEstimate = endsByEstimate(plan);
  if (available === null || isWrongHour(available)) return '';
  if (over) return `: ${about(isEstimate)}${durationText(over)} past the finish`;
  if (available === duration) return isEstimate ? ': about on the finish' : ': just on the finish';
  return `: ${about(isEstimate)}${durationText(wholeSeconds(available - duration))} to spare`;
}

/** No more is promised than there is. */
function wholeSeconds(time: Millis): Millis {
  return Math.floor(time / SECOND) * SECOND;
}

function laneLines(plan: Plan, sheet: Sheet): readonly string[] {
  const lanes = plan.session.lanes.slice(sheet.from, sheet.to);
  const rows = [lanes.map(({ swimmers }) => count(swimmers, 'swimmer'))];
  // On a row of its own: "7, 5 s apart" would be read as 7.5.
  if (lanes.some(({ swimmers }) => swimmers > 1))
    rows.push(lanes.map(({ swimmers, gap }) => (swimmers === 1 ? '' : `${spanText(gap)} apart`)));
  rows.push(lanes.map(baseText));
  if (lanes.some(({ css }) => css !== null))
    rows.push(lanes.map(({ css }) => (css === null ? '' : `css ${reading(css)}`)));
  return [laneNames(plan, sheet), ...rows.map((cells) => columns(cells, sheet))];
}

function baseText({ base, baseFrom }: Lane): string {
  if (baseFrom === 'assumed') return `base ${reading(base)} assumed`;
  return `base ${about(baseFrom === 'css')}${reading(base)}`;
}

/** The distance of each lane and the time of each part. Swims by time count for the time only. */
function totalLines(plan: Plan, totals: Totals, sheet: Sheet): readonly string[] {
  const { unit } = plan.session.pool;
  const distances = (list: readonly number[]): string =>
    columns(
      list.slice(sheet.from, sheet.to).map((distance) => distanceIn(distance, unit)),
      sheet,
    );
  const lengthText = (from: number, to: number, length: number): string =>
    `${about(plan.stretches.slice(from, to + 1).some(isEstimated))}${durationText(length)}`;
  const lines = [...ends('Totals', '', sheet.width, '─'), laneNames(plan, sheet)];
  for (const { name, first, last, start, end, distances: swum } of totals.parts) {
    const title = `${name}, ${lengthText(first, last, end - start)}`;
    lines.push(...wrapped(title, sheet.width, '  ', '    '), distances(swum));
  }
  const whole = lengthText(0, plan.stretches.length, totals.duration);
  return [...lines, `  In all, ${whole} with the time between parts`, distances(totals.distances)];
}

function warningLines(plan: Plan, width: number): readonly string[] {
  const warnings = warningsOf(plan);
  if (warnings.length === 0) return [];
  const lines = [...ends('Look again at', '', width, '─')];
  for (const { line, message } of warnings) lines.push(...wrapped(`line ${line}: ${message}`, width, '  ', '    '));
  return [...lines, ''];
}
