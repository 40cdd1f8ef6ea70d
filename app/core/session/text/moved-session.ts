/*
 * A session taken for another day and hour. Only what says when it is changes: the line for the day, the start, the
 * finish, which moves with it, and the weekday in the title. All else stays as the coach wrote it.
 */

import { DAY, MINUTE, type MinuteOfDay } from '../../units.ts';
import { timeOfDay } from '../../words/time/time-of-day.ts';
import { settingOf } from '../line/setting-line.ts';
import { isFlaw } from '../values/flaw.ts';
import { readStart, readTimeOfDay } from '../values/time-of-day.ts';
import { readLines, type Line } from './lines.ts';
import { weekdayOf, WEEKDAYS, type Day } from '../../day.ts';
import { dayOf, withDay } from './session-day.ts';

const MINUTES_A_DAY = DAY / MINUTE;
const NAMED = `\\b(?:${WEEKDAYS.join('|')})\\b`;

/** The start as written; null without one that can be read. */
export function startOf(text: string): MinuteOfDay | null {
  for (const line of readLines(text).lines) {
    const written = startOn(line);
    if (written) return written.start;
  }
  return null;
}

/** `start` (null: as it was) takes effect where the session has one. */
export function movedSession(text: string, day: Day, start: MinuteOfDay | null): string {
  const before = startOf(text);
  const moved = before === null || start === null ? text : withHourMoved(text, start - before);
  return withDay(withTitleFor(moved, dayOf(text), day), day);
}

/** Words in which the weekday of one day gives way to that of another; only one that is there once, and was right. */
export function withWeekday(words: string, from: Day | null, to: Day): string {
  const named = words.match(new RegExp(NAMED, 'gi')) ?? [];
  const [only] = named;
  if (only === undefined || named.length > 1) return words;
  if (from && only.toLowerCase() !== weekdayOf(from).toLowerCase()) return words;
  return words.replace(only, weekdayOf(to));
}

/** The weekday that words name, as its place in the week from Monday; null for none, and for several. */
export function weekdayIn(words: string): number | null {
  const [only, another] = words.match(new RegExp(NAMED, 'gi')) ?? [];
  if (only === undefined || another !== undefined) return null;
  return WEEKDAYS.findIndex((weekday) => weekday.toLowerCase() === only.toLowerCase());
}

function withTitleFor(text: string, from: Day | null, to: Day): string {
  const title = readLines(text).lines[0];
  // Where the first line is a setting or a set there is no weekday in it.
  return title && !settingOf(title.text) ? withLine(text, title, withWeekday(title.raw, from, to)) : text;
}

function withHourMoved(text: string, by: number): string {
  return readLines(text).lines.reduce((moved, line) => {
    const values = startOn(line) ?? finishOn(line);
    if (!values) return moved;
    const times = [values.start, values.finish].filter((each) => each !== null);
    const written = times.map((each) => timeOfDay((each + by + MINUTES_A_DAY) % MINUTES_A_DAY)).join('-');
    const at = line.start + values.at;
    const end = line.start + line.text.length;
    return withLine(moved, line, line.raw.slice(0, at) + written + line.raw.slice(end));
  }, text);
}

interface WrittenTimes {
  /** Where they begin in the line's text. */
  readonly at: number;
  readonly start: MinuteOfDay | null;
  readonly finish: MinuteOfDay | null;
}

function startOn({ text }: Line): WrittenTimes | null {
  const setting = settingOf(text);
  if (setting?.word !== 'start' || setting.flaw) return null;
  // `start on 5` is another setting, and has no time of day.
  const read = readStart(text, setting.value);
  if (isFlaw(read)) return null;
  return { at: setting.value, start: read.start.minute, finish: read.finish?.minute ?? null };
}

function finishOn({ text }: Line): WrittenTimes | null {
  const setting = settingOf(text);
  if (setting?.word !== 'finish' || setting.flaw) return null;
  const read = readTimeOfDay(text, setting.value);
  return isFlaw(read) ? null : { at: setting.value, start: null, finish: read.minute };
}

/** The text with one line put in place of another, which it has on the same number. */
function withLine(text: string, { number, raw }: Line, by: string): string {
  const lines = text.split('\n');
  lines[number - 1] = lines[number - 1]!.replace(raw, () => by);
  return lines.join('\n');
}
