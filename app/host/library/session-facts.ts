/*
 * What the list of sessions says of a text: its title, the day it is for, and what it comes to. And the words by which
 * it is found.
 */

import { dayText, isoDay, MONTHS, type Day } from '../../core/day.ts';
import { endsByEstimate } from '../../core/plan/estimates.ts';
import { openPlan } from '../../core/plan/open-plan.ts';
import { totalsOf } from '../../core/plan/totals.ts';
import { plainLetters } from '../../core/session/names/plain-letters.ts';
import { isOnlyBegun, parseSession } from '../../core/session/parse.ts';
import type { Item, Session } from '../../core/session/session.ts';
import { readLines } from '../../core/session/text/lines.ts';
import { dayOf } from '../../core/session/text/session-day.ts';
import type { EntryFigures, LibraryEntry } from '../../wire/library.ts';

export type SessionFacts = Pick<LibraryEntry, 'title' | 'day' | 'figures' | 'note'>;

/** The most leaves of a session that is worked out for a list: thrice an eventful evening; more would hold up a run. */
const MOST_LEAVES = 3000;

/** What of a text is looked through for words, in characters: all of any session that is swum in an evening. */
const MOST_SEARCHED = 32 * 1024;

export function sessionFacts(text: string): SessionFacts {
  const day = dayOf(text);
  const facts = { title: firstLine(text), day: day && isoDay(day), figures: null };
  const session = parseSession(text, null);
  if (!session.ok) {
    const { faults } = session;
    // A title or a heading is a beginning, and no mistake.
    if (isOnlyBegun(faults)) return { ...facts, note: 'not finished yet' };
    const { length } = faults;
    return { ...facts, note: length === 1 ? 'one line cannot be read' : `${length} faults` };
  }
  const { title } = session.value;
  if (leavesOf(session.value) > MOST_LEAVES) return { ...facts, title, note: 'very long' };
  return { ...facts, title, figures: figuresOf(text), note: null };
}

export function pieceFacts(text: string): SessionFacts {
  const lines = readLines(text).lines;
  const begins = lines.slice(0, 2).map((line) => line.text);
  return { title: null, day: null, figures: null, note: begins.join(', ').slice(0, 120) };
}

/** What a search looks through: name, days in several forms, text. `usedAt`: for those without a day of their own. */
export function searchedText(name: string, text: string, usedAt: number): string {
  const day = dayOf(text) ?? localDay(usedAt);
  return searchedLetters(`${name}\n${dayText(day)} ${isoDay(day)}\n${text.slice(0, MOST_SEARCHED)}`);
}

/** What to look for: all of it has to be there. A day and its month are one, as the searched text has them. */
export function searchedWords(find: string): readonly string[] {
  const words = searchedLetters(find)
    .split(/\s/u)
    .filter((word) => word !== '');
  const searched: string[] = [];
  for (let at = 0; at < words.length; at++) {
    const [word, next = ''] = [words[at]!, words[at + 1]];
    const day = isDayAndMonth(word, next) ? ` ${word} ${next}` : isDayAndMonth(next, word) ? ` ${next} ${word}` : null;
    searched.push(day ?? word);
    if (day !== null) at++;
  }
  return searched;
}

function isDayAndMonth(day: string, month: string): boolean {
  const isMonth = month.length >= 3 && MONTHS.some((each) => each.toLowerCase().startsWith(month));
  return isMonth && /^\d{1,2}$/.test(day);
}

/** Small letters, as plain as they can be typed. */
export function searchedLetters(text: string): string {
  return plainLetters(text).toLowerCase();
}

function figuresOf(text: string): EntryFigures | null {
  const plan = openPlan({ text, lanesText: null });
  if (!plan.ok) return null;
  const { distances, duration } = totalsOf(plan.value);
  return {
    least: Math.min(...distances),
    most: Math.max(...distances),
    unit: plan.value.session.pool.unit,
    duration,
    isEstimate: endsByEstimate(plan.value),
  };
}

/** At most so many, counted and not written out. */
function leavesOf({ parts, lanes }: Session): number {
  const inItem = (item: Item): number => {
    switch (item.kind) {
      case 'set':
        return item.reps.kind === 'ladder'
          ? item.reps.distances.length * lanes.length
          : item.reps.counts.reduce((sum, count) => sum + count, 0);
      case 'block':
        // Some of the shortest reps there are.
        return lanes.length * Math.ceil(item.time / 15_000);
      case 'timed-swim':
        return lanes.length;
      case 'rounds':
        return item.times * inItems(item.items);
      case 'lanes':
        return inItems(item.items);
      case 'talk':
      case 'break':
        return 1;
    }
  };
  const inItems = (items: readonly Item[]): number => items.reduce((sum, item) => sum + inItem(item), 0);
  return parts.reduce((sum, { items }) => sum + inItems(items), 0);
}

function firstLine(text: string): string | null {
  return readLines(text).lines[0]?.text.slice(0, 120) ?? null;
}

function localDay(at: number): Day {
  const date = new Date(at);
  return { year: date.getFullYear(), month: date.getMonth() + 1, day: date.getDate() };
}
