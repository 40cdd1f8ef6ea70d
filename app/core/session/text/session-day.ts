/*
 * The day that a session is for. The notation has no line for it, since a run goes by the time of day alone; it stands in
 * the text as a comment that people can read, `# for Thursday 3 December 2026`, and so stays with a file wherever it goes.
 */

export interface Day {
  readonly year: number;
  /** From 1. */
  readonly month: number;
  readonly day: number;
}

export const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;

export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

const WORDS = /^[ \t]*#[ \t]*for[ \t]+(?:[a-z]+,?[ \t]+)?(\d{1,2})[ \t]+([a-z]{3,9})[ \t]+(\d{4})[ \t]*\r?$/im;
const DIGITS = /^[ \t]*#[ \t]*for[ \t]+(\d{4})-(\d\d)-(\d\d)[ \t]*\r?$/im;

/** The day that a text says it is for; null where it says none, or one that no calendar has. */
export function dayOf(text: string): Day | null {
  return placeOfDay(text)?.day ?? null;
}

/** The text made for another day: its line for the day, or a new one below the first line, says so. */
export function withDay(text: string, day: Day): string {
  const line = `# for ${dayText(day)}`;
  const place = placeOfDay(text);
  if (place) return text.slice(0, place.from) + line + text.slice(place.to);
  const end = text.indexOf('\n');
  return end < 0 ? `${text}\n${line}\n` : `${text.slice(0, end + 1)}${line}\n${text.slice(end + 1)}`;
}

/** "Thursday 3 December 2026". */
export function dayText(day: Day): string {
  return `${weekdayOf(day)} ${day.day} ${MONTHS[day.month - 1]} ${day.year}`;
}

/** By Sakamoto's method, for the Gregorian calendar. */
export function weekdayOf({ year, month, day }: Day): (typeof WEEKDAYS)[number] {
  const shifts = [0, 3, 2, 5, 0, 3, 5, 1, 4, 6, 2, 4];
  const y = month < 3 ? year - 1 : year;
  const fromSunday = (y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + shifts[month - 1]! + day) % 7;
  return WEEKDAYS[(fromSunday + 6) % 7]!;
}

interface DayPlace {
  readonly day: Day;
  readonly from: number;
  /** Without the line's end. */
  readonly to: number;
}

function placeOfDay(text: string): DayPlace | null {
  const words = WORDS.exec(text);
  const digits = DIGITS.exec(text);
  const found = words && (!digits || words.index < digits.index) ? words : digits;
  if (!found) return null;
  const [line, first, second, third] = found;
  const day =
    found === words
      ? { year: Number(third), month: monthOf(second!), day: Number(first) }
      : { year: Number(first), month: Number(second), day: Number(third) };
  if (!isDay(day)) return null;
  return { day, from: found.index, to: found.index + line.replace(/\r$/, '').length };
}

/** By its first letters, three at least; 0 for none. */
function monthOf(word: string): number {
  return MONTHS.findIndex((month) => month.toLowerCase().startsWith(word.toLowerCase())) + 1;
}

function isDay({ year, month, day }: Day): boolean {
  if (month < 1 || month > 12 || day < 1) return false;
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  return day <= days[month - 1]!;
}
