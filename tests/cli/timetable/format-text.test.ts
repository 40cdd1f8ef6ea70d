import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { timetableText } from '../../../app/cli/timetable/format-text.ts';
import { laneGroups, type Sheet } from '../../../app/cli/timetable/sheet.ts';
import type { Plan } from '../../../app/core/plan/plan.ts';
import { reading } from '../../../app/core/words/time/reading.ts';
import {
  base,
  block,
  holdTime,
  ladder,
  lane,
  on,
  part,
  pause,
  planOf,
  restOf,
  rounds,
  set,
  timedSwim,
} from '../../support/coach/hand-session.ts';

function linesOf(plan: Plan): readonly string[] {
  return timetableText(plan, null).split('\n');
}

/** The words of the line that begins with these. */
function lineWith(plan: Plan, start: string): string | undefined {
  return linesOf(plan)
    .find((line) => line.trim().startsWith(start))
    ?.trim();
}

describe('every leave can be read', () => {
  /** The leave times in the columns of a sheet, lane by lane, as they stand from top to bottom. */
  function leavesIn(lines: readonly string[], sheet: Sheet): readonly (readonly string[])[] {
    const rows = lines.filter((line) => /^ {4}[\d:. –]+$/.test(line));
    return Array.from({ length: sheet.to - sheet.from }, (_, place) => {
      const from = 4 + place * sheet.column;
      return rows.flatMap((row) => row.slice(from, from + sheet.column).match(/[\d:.]+/g) ?? []);
    });
  }

  test('in its lane’s column, in order, for any number of lanes up to 20', () => {
    const swims = fc.array(
      fc.record({
        counts: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 20, maxLength: 20 }),
        on: fc.integer({ min: 100, max: 9000 }),
      }),
      { minLength: 1, maxLength: 4 },
    );
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), swims, (count, drawn) => {
        const lanes = Array.from({ length: count }, (_, index) => lane(index, { base: 60_000 }));
        const items = drawn.map(({ counts, on: tenths }, line) => {
          const swum = counts.slice(0, count);
          return set(line + 1, [swum[0]! + 1, ...swum.slice(1)], 50, {
            lanes: count,
            timing: on(tenths / 10, 0, count),
          });
        });
        const plan = planOf(items, { lanes });
        const lines = linesOf(plan);
        const sheets = laneGroups(count);
        const starts = lines.flatMap((line, at) => (line.startsWith('Session ─') ? [at] : []));
        expect(starts).toHaveLength(sheets.length);
        sheets.forEach((sheet, index) => {
          const body = lines.slice(
            starts[index],
            lines.findIndex((line, at) => at > starts[index]! && line.startsWith('Totals')),
          );
          const planned = plan.stretches[0]!.lanes.slice(sheet.from, sheet.to);
          expect(leavesIn(body, sheet)).toEqual(planned.map(({ reps }) => reps.map(({ offset }) => reading(offset))));
        });
      }),
      { seed: 80, numRuns: 60 },
    );
  });

  test('80 columns for up to four lanes, at most 132 for more, whatever the words', () => {
    for (let count = 1; count <= 20; count++) {
      const lanes = Array.from({ length: count }, (_, index) =>
        lane(index, { swimmers: 20, gap: 60_000, css: 80_000 }),
      );
      const long = 'build each fifty to a strong finish and keep the elbows high all the way '.repeat(4).trim();
      const timing = restOf(15, count);
      const plan = planOf(
        [part(long, 1, set(2, 30, 400, { lanes: count, words: long, timing }), pause('talk', 3, 60, long))],
        {
          lanes,
          title: long,
          startsAt: 1170,
        },
      );
      const widest = Math.max(...linesOf(plan).map((line) => line.length));
      expect(widest).toBeLessThanOrEqual(count <= 4 ? 80 : 132);
    }
  });
});

describe('what stands around the leaves', () => {
  test('swimmers and their gap in rows of their own: no figure beside another that could be read as one', () => {
    const lanes = [lane(0, { swimmers: 7, gap: 5000 }), lane(1), lane(2, { swimmers: 20, gap: 60_000 })];
    const plan = planOf([set(1, [4, 4, 4], 50, { lanes: 3, timing: on(60, 0, 3) })], { lanes });
    const cells = (start: string) => lineWith(plan, start)?.split(/ {2,}/);
    expect(cells('7 swim')).toEqual(['7 swimmers', '1 swimmer', '20 swimmers']);
    expect(cells('5 s')).toEqual(['5 s apart', '1:00 apart']);
    const alone = planOf([set(1, 4, 50, { timing: on(60) })], { lanes: [lane(0)] });
    expect(linesOf(alone).some((line) => line.includes('apart'))).toBe(false);
  });

  const evening = { startsAt: 19 * 60 + 30, finishBy: 20 * 60 + 30, title: 'Harbour squad' };
  const hour = [
    part('Warm-up', 1, timedSwim(2, 600, 'choice'), pause('talk', 3, 90, 'turns'), set(4, 4, 50, { timing: on(60) })),
    part('Main set', 5, set(6, 4, 100, { timing: restOf(15) })),
    part('Swim-down', 7, set(8, 1, 200, { words: 'easy' })),
  ];

  test('each part with its time of day, estimated once it rests on an estimate', () => {
    const lines = linesOf(planOf(hour, evening));
    expect(lines.find((line) => line.startsWith('Warm-up ─'))).toMatch(/ 19:30, on the coach's word$/);
    expect(lines.find((line) => line.startsWith('Main set ─'))).toMatch(/─ 19:46:30, on the coach's word$/);
    expect(lines.find((line) => line.startsWith('Swim-down ─'))).toMatch(/ ≈19:53:50, on the coach's word$/);
    expect(lines.find((line) => line.includes('Talk 1:30 turns'))).toMatch(/ 19:40, by itself$/);
    expect(lines.find((line) => line.includes('Swim, clock from 0:00'))).toMatch(/ 19:41:30, on the coach's word$/);
  });

  test('without a start, times count from the beginning of the session', () => {
    expect(linesOf(planOf(hour)).find((line) => line.startsWith('Main set ─'))).toMatch(
      / 16:30 in, on the coach's word$/,
    );
  });

  test('length, end and what is left of the hour', () => {
    expect(lineWith(planOf(hour, evening), 'planned length')).toMatch(
      /^planned length ≈\d+ min \d+ s, to ≈[\d:]+: ≈\d+ min \d+ s to spare$/,
    );
    const short = { ...evening, finishBy: 19 * 60 + 40 };
    expect(lineWith(planOf([timedSwim(1, 600)], short), 'planned length')).toBe(
      'planned length 10 min, to 19:40: just on the finish',
    );
    expect(lineWith(planOf([timedSwim(1, 660)], short), 'planned length')).toBe(
      'planned length 11 min, to 19:41: 1 min past the finish',
    );
    expect(lineWith(planOf([timedSwim(1, 660)]), 'planned length')).toBe('planned length 11 min');
  });

  test('totals by part and lane, warnings by line, and the caution at the foot', () => {
    const text = timetableText(planOf(hour, evening), null);
    expect(text).toContain('  Main set, ≈6 min 20 s\n    400 m\n');
    expect(text).toMatch(/ {2}In all, ≈\d+ min \d+ s with the time between parts\n {4}800 m\n/);
    expect(text).not.toContain('Look again at');
    expect(text.trimEnd().replace(/\s+/g, ' ')).toMatch(
      /it does not watch them: the lifeguard and the coach keep watch\. .+competent person\.$/,
    );
    expect(timetableText(planOf([set(7, 1, 90, { timing: on(120) })]), null)).toContain(
      '  line 7: 90 m is not a whole number',
    );
  });
});

describe('sets as a coach would write them', () => {
  const lanes = [lane(1), lane(2), lane(3)];
  const label = (item: ReturnType<typeof set> | ReturnType<typeof block>): string | undefined =>
    linesOf(planOf([item], { lanes }))[
      linesOf(planOf([item], { lanes })).findIndex((line) => line.startsWith('Session ─')) + 2
    ]?.trim();

  test.each([
    [set(1, 8, 75, { lanes: 3, words: 'free', timing: on(80, 0, 3) }), '8 x 75 free @ 1:20'],
    [set(1, [8, 7, 6], 75, { lanes: 3, words: 'free', timing: on([80, 85, 90]) }), '8/7/6 x 75 free @ 1:20/1:25/1:30'],
    [set(1, [2, 0, 2], [100, 75, 50], { lanes: 3, timing: on(90, 0, 3) }), '2/0/2 x 100/–/50 @ 1:30'],
    [set(1, 1, 150, { lanes: 3, words: 'steady', timing: base(0, 3) }), '150 steady @ 2:15'],
    [set(1, 4, 100, { lanes: 3, timing: on(120, -5, 3) }), '4 x 100 @ 2:00 drop 5'],
    [set(1, 4, 100, { lanes: 3, timing: on(90, 2.5, 3) }), '4 x 100 @ 1:30 add 2.5'],
    [set(1, 6, 75, { lanes: 3, timing: restOf(15, 3) }), '6 x 75 @ ≈1:15'],
    [
      set(1, 2, 100, { lanes: 3, timing: on(100, 0, 3), hold: holdTime([80, 80, 85]) }),
      '2 x 100 @ 1:40 hold 1:20/1:20/1:25',
    ],
    [set(1, 4, 50, { lanes: 3, words: 'choice' }), '4 x 50 choice, ≈2:40 in all'],
    [block(1, 1200, 100, base(0, 3), { lanes: 3, words: 'free' }), '20:00 of 100s free @ 1:30'],
    [ladder(1, [100, 100], { timing: base(0, 3) }) as ReturnType<typeof set>, '100-100 @ 1:30'],
    [ladder(1, [100, 200, 100], { timing: base(0, 3) }) as ReturnType<typeof set>, '100-200-100 @ 1:30-3:00-1:30'],
  ])('%#: %j', (item, expected) => {
    expect(label(item)).toBe(expected);
  });

  test('rounds are named, inner ones in outer ones', () => {
    const plan = planOf([rounds(1, 2, rounds(2, 2, set(3, 1, 50, { timing: on(60) })))]);
    const named = linesOf(plan).filter((line) => line.trim().startsWith('Round'));
    expect(named.map((line) => line.trim())).toEqual([
      'Round 1 of 2, round 1 of 2',
      'Round 1 of 2, round 2 of 2',
      'Round 2 of 2, round 1 of 2',
      'Round 2 of 2, round 2 of 2',
    ]);
  });
});
