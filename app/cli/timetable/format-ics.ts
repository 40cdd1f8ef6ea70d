/*
 * The timetable for a calendar (RFC 5545): one event for each part, in floating local time, because a pool opens by
 * its own clock. Nothing in it depends on when or where it is printed: the same session on the same day gives the same
 * bytes, and an event keeps its UID when its sets are changed.
 */

import { createHash } from 'node:crypto';
import { dayAt, dayNumber, isoDay, type Day } from '../../core/day.ts';
import type { Plan, Stretch, PlannedSet } from '../../core/plan/plan.ts';
import { plannedTimes } from '../../core/plan/schedule.ts';
import { totalsOf, type PartTotal } from '../../core/plan/totals.ts';
import { distanceIn } from '../../core/words/distance.ts';
import { roundsText } from '../../core/words/round.ts';
import { pauseText } from '../../core/words/stretch.ts';
import { clockTimeToSecond, timeOfDay } from '../../core/words/time/time-of-day.ts';
import { DAY, MINUTE, SECOND, type Millis, type MinuteOfDay } from '../../core/units.ts';
import { passagesOf, type StretchPassage } from './passages.ts';
import { setLabel } from './set-label.ts';

/** Octets in a line before its CRLF (RFC 5545, 3.1). */
const MOST_OCTETS = 75;

/** The calendar as text. startsAt: the session's start, on `day`. A part without stretches has no event. */
export function timetableIcs(plan: Plan, day: Day, startsAt: MinuteOfDay): string {
  const passages = passagesOf(plan);
  const lines = ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//Lanecall//Timetable//EN', 'CALSCALE:GREGORIAN'];
  for (const part of totalsOf(plan, plannedTimes(plan)).parts) {
    lines.push(...eventLines(plan, part, day, startsAt, passages));
  }
  lines.push('END:VCALENDAR');
  return lines.map(folded).join('');
}

function eventLines(
  plan: Plan,
  part: PartTotal,
  day: Day,
  startsAt: MinuteOfDay,
  passages: (stretch: Stretch) => readonly StretchPassage[],
): string[] {
  const title = plan.session.title ?? 'Session';
  const start = startsAt * MINUTE;
  return [
    'BEGIN:VEVENT',
    `UID:${identity([isoDay(day), timeOfDay(startsAt), title, `${part.partIndex}`])}@lanecall.invalid`,
    `DTSTAMP:${stampText(day, 0)}Z`,
    `DTSTART:${stampText(day, start + part.start)}`,
    // The end is rounded up to a whole second, so that no event ends before its last swimmer.
    `DTEND:${stampText(day, start + Math.ceil(part.end / SECOND) * SECOND)}`,
    `SUMMARY:${escaped(part.name === title ? title : `${part.name} (${title})`)}`,
    `DESCRIPTION:${escaped(description(plan, part, passages).join('\n'))}`,
    'END:VEVENT',
  ];
}

/** `YYYYMMDDTHHMMSS` of the time `after` midnight, which may be on a later day; part seconds are cut off. */
function stampText(day: Day, after: Millis): string {
  const on = dayAt(dayNumber(day) + Math.floor(after / DAY));
  return `${isoDay(on)}T${clockTimeToSecond(after)}`.replace(/[-:]/g, '');
}

/** A hash in letters and digits: the same for the same words, different for others. */
function identity(words: readonly string[]): string {
  return createHash('sha256').update(words.join('\n')).digest('hex').slice(0, 32);
}

function description(
  plan: Plan,
  part: PartTotal,
  passages: (stretch: Stretch) => readonly StretchPassage[],
): readonly string[] {
  const lines: string[] = [];
  const written = new Set<number>();
  for (const stretch of plan.stretches.slice(part.first, part.last + 1)) {
    const again = (line: number): boolean => written.size === written.add(line).size;
    if (stretch.kind === 'swim') {
      for (const { set, line, lanes } of passages(stretch)) {
        if (!again(line.item.line)) lines.push(setLabel(line, lanes) + roundsNote(set));
      }
    } else if (!again(stretch.line)) {
      lines.push(pauseText(stretch));
    }
  }
  const { lanes, pool } = plan.session;
  part.distances.forEach((distance, index) => {
    lines.push(`Lane ${lanes[index]!.number}: ${distanceIn(distance, pool.unit)}`);
  });
  return lines;
}

/** ` (3 rounds)`: how often a line in rounds is swum in all; '' for once. */
function roundsNote({ rounds }: PlannedSet): string {
  const times = rounds.reduce((product, { of }) => product * of, 1);
  return times > 1 ? ` (${roundsText(times)})` : '';
}

/** TEXT values (RFC 5545, 3.3.11). */
function escaped(text: string): string {
  return text.replace(/[\\;,]/g, '\\$&').replace(/\n/g, '\\n');
}

/** The line with CRLF, folded into lines of at most 75 octets without splitting a character (RFC 5545, 3.1). */
function folded(line: string): string {
  let text = '';
  let octets = 0;
  for (const character of line) {
    const size = Buffer.byteLength(character);
    if (octets + size > MOST_OCTETS) {
      text += '\r\n ';
      octets = 1;
    }
    text += character;
    octets += size;
  }
  return `${text}\r\n`;
}
