/*
 * What the list says below a session's name: its day, how far it is and how long it takes.
 */

import { readDay, weekdayOf, type Day } from '../../../../app/core/day.ts';
import { MINUTE } from '../../../../app/core/units.ts';
import { distanceIn, distanceText } from '../../../../app/core/words/distance.ts';
import { about } from '../../../../app/core/words/time/estimate.ts';
import type { EntryFigures, LibraryEntry } from '../../../link/requests/library.ts';
import { dateOf } from '../naming/moved-name.ts';

/** "Thu 3 December · 2400–2900 m · ≈59 min". */
export function entryFacts({ day, usedAt, figures, note }: LibraryEntry): string {
  return [dayOf(day, usedAt), figures ? figuresText(figures) : (note ?? '')].filter((each) => each !== '').join(' · ');
}

/** "27 November, 19:05" */
export function momentText(at: number): string {
  const date = new Date(at);
  const minutes = `${date.getMinutes()}`.padStart(2, '0');
  return `${dateOf(localDay(at))}, ${date.getHours()}:${minutes}`;
}

function dayOf(day: string | null, usedAt: number): string {
  const own = readDay(day ?? '');
  return own ? `${weekdayOf(own).slice(0, 3)} ${dateOf(own)}` : `used ${dateOf(localDay(usedAt))}`;
}

function figuresText({ least, most, unit, duration, isEstimate }: EntryFigures): string {
  const distance = least === most ? distanceIn(most, unit) : `${distanceText(least)}–${distanceIn(most, unit)}`;
  // A figure stays with its unit.
  return `${distance} · ${about(isEstimate)}${Math.round(duration / MINUTE)} min`.replace(/ (?=m|yd)/g, '\u00a0');
}

function localDay(at: number): Day {
  const date = new Date(at);
  return { year: date.getFullYear(), month: date.getMonth() + 1, day: date.getDate() };
}
