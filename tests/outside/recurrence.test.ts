/*
 * Leaves of a set with one interval against recurrence rules, by an independent implementation (the
 * rrule package). Source: RFC 5545, section 3.3.10: FREQ=SECONDLY;INTERVAL=n;COUNT=k means DTSTART +
 * i x n s for i from 0 to k - 1, DTSTART counting as the first. The package drops milliseconds after
 * the first item and truncates fractions, so everything here is whole seconds in UTC, n and k at least 1.
 */

import fc from 'fast-check';
import { rrulestr } from 'rrule';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../app/core/plan/plan.ts';
import { plannedTimes } from '../../app/core/plan/schedule.ts';
import type { Item } from '../../app/core/session/session.ts';
import { lane, on, part, pause, planOf, rounds, set } from '../support/coach/hand-session.ts';

const DAY_START = Date.UTC(2026, 11, 31);

/** The moments of a rule, in ms. */
function occurrences(start: number, interval: number, count: number): readonly number[] {
  const stamp = new Date(start).toISOString().slice(0, 19).replace(/[-:]/g, '');
  const rule = rrulestr(`DTSTART:${stamp}Z\nRRULE:FREQ=SECONDLY;INTERVAL=${interval};COUNT=${count}`);
  return rule.all().map((moment) => moment.getTime());
}

/** The moments at which a lane leaves for each passage through a set, by the plan, with the session's start at `from`. */
function leaves(plan: Plan, index: number, from: number): readonly (readonly number[])[] {
  const times = plannedTimes(plan);
  const found = new Map<object, number[]>();
  plan.stretches.forEach((stretch, place) => {
    for (const { set, offset } of stretch.lanes[index]?.reps ?? []) {
      found.set(set, [...(found.get(set) ?? []), from + times[place]!.start + offset]);
    }
  });
  return Array.from(found.values());
}

describe('single sets', () => {
  // Worked out by hand.
  test.each([
    [95, 8, ['06:00:00', '06:01:35', '06:03:10', '06:04:45', '06:06:20', '06:07:55', '06:09:30', '06:11:05']],
    [75, 3, ['06:00:00', '06:01:15', '06:02:30']],
  ])('every %i s, %i times', (interval, count, expected) => {
    const start = DAY_START + 6 * 3_600_000;
    const [moments] = leaves(planOf([set(1, count, 100, { timing: on(interval) })]), 0, start);
    expect(moments!.map((moment) => new Date(moment).toISOString().slice(11, 19))).toEqual(expected);
    expect(moments).toEqual(occurrences(start, interval, count));
  });

  test('over midnight and the end of the year', () => {
    const start = DAY_START + (23 * 60 + 58) * 60_000;
    const [moments] = leaves(planOf([set(1, 3, 100, { timing: on(75) })]), 0, start);
    expect(moments!.map((moment) => new Date(moment).toISOString())).toEqual([
      '2026-12-31T23:58:00.000Z',
      '2026-12-31T23:59:15.000Z',
      '2027-01-01T00:00:30.000Z',
    ]);
    expect(moments).toEqual(occurrences(start, 75, 3));
  });
});

describe('random sessions', () => {
  const item = fc.record({
    counts: fc.tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 0, max: 12 })),
    intervals: fc.tuple(fc.integer({ min: 10, max: 600 }), fc.integer({ min: 10, max: 600 })),
    repeat: fc.integer({ min: 1, max: 3 }),
    pause: fc.option(fc.integer({ min: 1, max: 200 })),
  });
  const parts = fc.array(fc.array(item, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 3 });

  test('in every stretch each set with one interval is a recurrence rule from its first leave', () => {
    fc.assert(
      fc.property(
        parts,
        fc.integer({ min: 0, max: 86_399 }),
        fc.constantFrom(1, 5, 30, 60),
        (drawn, second, startOn) => {
          let line = 0;
          const built = drawn.map((items, index) =>
            part(
              `Part ${index}`,
              ++line,
              ...items.flatMap((given): Item[] => {
                const sets = set(++line, [...given.counts], 50, { lanes: 2, timing: on([...given.intervals]) });
                const swum = given.repeat > 1 ? rounds(++line, given.repeat, sets) : sets;
                return given.pause === null ? [swum] : [swum, pause('break', ++line, given.pause)];
              }),
            ),
          );
          const lanes = [lane(1, { swimmers: 5 }), lane(2, { swimmers: 3, gap: 10_000 })];
          const plan = planOf(built, { lanes, startOn: startOn * 1000 });
          const start = DAY_START + second * 1000;
          for (const index of [0, 1]) {
            const asked = drawn
              .flat()
              .flatMap(({ counts, intervals, repeat }) =>
                counts[index] === 0 ? [] : new Array(repeat).fill([intervals[index], counts[index]]),
              );
            const passages = leaves(plan, index, start);
            expect(passages).toHaveLength(asked.length);
            passages.forEach((moments, place) => {
              const [interval, count] = asked[place] as [number, number];
              expect(moments).toEqual(occurrences(moments[0]!, interval, count));
            });
          }
        },
      ),
      { seed: 20261231, numRuns: 150 },
    );
  });

  test('a set that follows another begins where a rule with one more item would end', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 1200 }), (count, interval) => {
        const plan = planOf([set(1, count, 50, { timing: on(interval) }), set(2, 1, 50, { timing: on(60) })]);
        const [first, second] = leaves(plan, 0, DAY_START);
        const rule = occurrences(DAY_START, interval, count + 1);
        expect(first).toEqual(rule.slice(0, -1));
        expect(second).toEqual(rule.slice(-1));
      }),
      { seed: 5545, numRuns: 200 },
    );
  });
});
