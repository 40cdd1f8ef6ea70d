/*
 * The day that a session is for. The notation has no line for it, since a run goes by the time of day alone; it stands in
 * the text as a comment that people can read, `# for Thursday 3 December 2026`, and so stays with a file wherever it goes.
 */

import { dayText, isDay, MONTHS, type Day } from '../../day.ts';

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
