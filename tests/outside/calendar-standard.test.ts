/*
 * The calendar as RFC 5545 asks for it, by a reading of our own from the standard.
 */

import { readDay } from '../../app/core/day.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { timetableIcs } from '../../app/cli/timetable/format-ics.ts';
import type { Part, Session } from '../../app/core/session/session.ts';
import { readCalendar, type CalendarEvent } from '../support/formats/calendar-reader.ts';
import { on, part, pause, planOf, set, timedSwim } from '../support/coach/hand-session.ts';

const EVENING = 19 * 60 + 30;

function events(content: readonly Part[], given: Partial<Session> = {}, date = '2026-03-05'): readonly CalendarEvent[] {
  const plan = planOf(content, { startsAt: EVENING, ...given });
  return readCalendar(Buffer.from(timetableIcs(plan, readDay(date)!, plan.session.startsAt!)));
}

const HOUR = [
  part('Warm-up', 1, timedSwim(2, 600, 'choice')),
  part('Notices', 3),
  part('Main set', 4, set(5, 4, 100, { words: 'free', timing: on(90) }), pause('talk', 6, 60, 'turns')),
];

describe('events', () => {
  test('one a part, none for a part without stretches, from its first start to its last end', () => {
    expect(events(HOUR).map(({ summary, start, end }) => [summary, start, end])).toEqual([
      ['Warm-up (Session)', '20260305T193000', '20260305T194000'],
      ['Main set (Session)', '20260305T194100', '20260305T194800'],
    ]);
  });

  test('past midnight on the next day, also over the end of a month and a leap day', () => {
    const late = { startsAt: 23 * 60 + 55 };
    expect(events(HOUR, late, '2026-12-31').map(({ start, end }) => [start, end])).toEqual([
      ['20261231T235500', '20270101T000500'],
      ['20270101T000600', '20270101T001300'],
    ]);
    expect(events(HOUR, late, '2028-02-28')[1]!.start).toBe('20280229T000600');
  });

  test('a part that ends within a second fills it', () => {
    expect(events([part('A', 1, timedSwim(2, 60.5))])[0]!.end).toBe('20260305T193101');
  });

  test('the sets stand in the description, what is in rounds once', () => {
    expect(events(HOUR)[1]!.description.split('\n')).toEqual([
      '4 x 100 free @ 1:30',
      'talk 1:00 turns',
      'Lane 1: 400 m',
    ]);
  });

  test('the same session on the same day is the same calendar; a changed set keeps its event', () => {
    const changed = [HOUR[0]!, HOUR[1]!, part('Main set', 4, set(5, 8, 50, { timing: on(60) }))];
    const uids = events(HOUR).map(({ uid }) => uid);
    expect(events(HOUR)).toEqual(events(HOUR));
    expect(events(changed).map(({ uid }) => uid)).toEqual(uids);
    expect(events(HOUR, {}, '2026-03-12').map(({ uid }) => uid)).not.toEqual(uids);
  });

  test('stamped from the day that was given, not from a clock', () => {
    expect(events(HOUR).map(({ stamp }) => stamp)).toEqual(['20260305T000000Z', '20260305T000000Z']);
  });
});

test('any words come back as they were written, folded and escaped', () => {
  const words = fc.string({ unit: 'grapheme', maxLength: 120 }).map((text) => text.replace(/\p{Cc}/gu, ' '));
  fc.assert(
    fc.property(words, words, words, (title, name, swim) => {
      const [event] = events([part(name, 1, timedSwim(2, 60, swim))], { title });
      expect(event!.summary).toBe(name === title ? title : `${name} (${title})`);
      expect(event!.description.split('\n')[0]).toBe(swim === '' ? '1:00' : `1:00 ${swim}`);
    }),
    { seed: 31, numRuns: 300 },
  );
});

test('a day is a real one, written YYYY-MM-DD', () => {
  expect(['2026-02-29', '2026-13-01', '2026-3-5', '20260305', '0026-03-05', '2026-03-05 '].map(readDay)).toEqual(
    new Array(6).fill(null),
  );
  expect(readDay('2028-02-29')).toEqual({ year: 2028, month: 2, day: 29 });
});
