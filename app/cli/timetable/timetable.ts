/*
 * `lanecall timetable`: the plan of a session, for people, programs, a spreadsheet or a calendar.
 */

import { readDay, type Day } from '../../core/day.ts';
import { plannedTimes } from '../../core/plan/schedule.ts';
import { readArguments } from '../arguments.ts';
import { timetableCsv } from './format-csv.ts';
import { timetableIcs } from './format-ics.ts';
import { faultsJson, timetableJson } from './format-json.ts';
import { timetableText } from './format-text.ts';
import { EXIT, write, type Io } from '../io.ts';
import { readPlan, refused, STANDARD_INPUT } from '../session-file.ts';
import { help, wrongUsage } from '../usage.ts';

const FORMATS = ['text', 'json', 'csv', 'ics'] as const;

type Format = (typeof FORMATS)[number];

/** Runs `timetable` with the words after it; gives the exit status. */
export async function timetable(args: readonly string[], io: Io): Promise<number> {
  const read = readArguments(args, { lanes: 'value', format: 'value', date: 'value' });
  if (!read.ok) return wrongUsage(io, 'timetable', read.faults);
  const { positionals, values, flags } = read.value;
  if (flags.has('help')) return help(io, 'timetable');
  const [session, ...more] = positionals;
  if (session === undefined || more.length > 0) {
    return wrongUsage(io, 'timetable', `takes one session, not ${positionals.length}`);
  }
  const lanes = values.get('lanes') ?? null;
  if (session === STANDARD_INPUT && lanes === STANDARD_INPUT) {
    return wrongUsage(io, 'timetable', 'only one of session and lanes can be standard input');
  }
  const format = FORMATS.find((known) => known === (values.get('format') ?? 'text'));
  if (!format) return wrongUsage(io, 'timetable', `--format needs one of ${FORMATS.join(', ')}`);
  const date = values.has('date') ? readDay(values.get('date')!) : null;
  if (values.has('date') && !date) return wrongUsage(io, 'timetable', '--date needs a day such as 2026-03-05');
  if (format === 'ics' && !date) return wrongUsage(io, 'timetable', 'a calendar needs the day: --date YYYY-MM-DD');
  return printTimetable(io, session, lanes, format, date);
}

async function printTimetable(
  io: Io,
  session: string,
  lanes: string | null,
  format: Format,
  date: Day | null,
): Promise<number> {
  const read = await readPlan(io, session, lanes);
  if (!read.ok) {
    if (format === 'json' && read.status === EXIT.faults) await write(io.stdout, jsonText(faultsJson(read.faults)));
    return read.status;
  }
  const { plan } = read;
  if (format === 'ics' && date) {
    const { startsAt } = plan.session;
    // Something is missing in the session's text, so this is a fault of the text and not wrong usage.
    if (startsAt === null) return (await refused(io, session, { ok: false, why: 'fault', faults: [NO_START] })).status;
    await write(io.stdout, timetableIcs(plan, date, startsAt));
  } else if (format === 'json') await write(io.stdout, jsonText(timetableJson(plan)));
  else if (format === 'csv') await write(io.stdout, timetableCsv(plan, plannedTimes(plan)));
  else await write(io.stdout, timetableText(plan, date));
  return EXIT.done;
}

const NO_START = {
  line: 1,
  column: 1,
  message: 'a calendar needs the time at which the session starts: write a line such as "start 19:30"',
};

function jsonText(value: object): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
