import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Stretch } from '../../../../app/core/plan/plan.ts';
import { totalsOf } from '../../../../app/core/plan/totals.ts';
import { openPlan } from '../../../../app/core/plan/open-plan.ts';
import { fitPlan } from '../../../../app/core/run/hour/fit.ts';
import { textWithCut, textWithTime } from '../../../../app/core/session/text/text-cut.ts';
import { MINUTE } from '../../../../app/core/units.ts';
import { seeded, validSession } from '../../../support/formats/session-text.ts';
import { runs } from '../../../support/run/runs.ts';

const POOL = { length: 2500, unit: 'm' } as const;

describe('a cut written into the text', () => {
  test.each([
    ['4 x 50 fast @ 1:00', 1, '3 x 50 fast @ 1:00'],
    ['  - 10x100 on 1:40 # hard', 2, '  - 8x100 on 1:40 # hard'],
    ['8/7/0/6 x 50 @ 1:00', 5, '3/2/0/1 x 50 @ 1:00'],
    ['3 x 4 x 50 @ 1:00', 1, '2 x 4 x 50 @ 1:00'],
    ['3 rounds:', 2, '1 round:'],
    ['- 4 Rounds of', 3, '- 1 Round of'],
    ['3 rounds', 1, '2 rounds'],
    ['12 rounds', 11, '1 round'],
    ['3  rounds', 2, '1  round'],
    ['3rounds', 2, '1round'],
    ['2 times', 1, '1 times'],
    ['12 × 25 kick on :40', 3, '9 × 25 kick on :40'],
    ['100-200-300-200-100 IM @ base', 2, '100-200-300 IM @ base'],
    ['100 - 200 - 300 m @ base', 2, '100 m @ base'],
    ['62.5-75-100 m @ 2:00', 2, '62.5 m @ 2:00'],
    ['4 x 75 free @ 1:20, 1:15, 1:10, 1:05', 1, '3 x 75 free @ 1:20, 1:15, 1:10'],
    // A bare number before words would be one of them: `@ 75, 70 easy`.
    ['3 x 50 @ 75, 70, 1:05 easy', 1, '2 x 50 @ 75, 70, easy'],
    ['3 x 50 @ 75s, 70 sec, 1:05 easy', 1, '2 x 50 @ 75s, 70 sec, easy'],
    ['3 x 50 @ 75, 1:10, 1:05 easy', 1, '2 x 50 @ 75, 1:10 easy'],
    ['3 x 50 @ 75, base+10, 1:05 easy', 1, '2 x 50 @ 75, base+10 easy'],
    ['3 x 50 @ 75, 70, 65 hold 40', 1, '2 x 50 @ 75, 70 hold 40'],
    ['3 x 50 @ 75, 70, 65', 2, '1 x 50 @ 75'],
    ['4/0/4 x 50 @ 1:00/1:05/1:10, 55, 50, 45, fast # all out', 3, '1/0/1 x 50 @ 1:00/1:05/1:10, fast # all out'],
    ['3 x 50 hold 30, 29.5, 29 @ 1:30, 1:25, 1:20 fly', 1, '2 x 50 hold 30, 29.5 @ 1:30, 1:25 fly'],
    ['3 x 50 @ 1:30 drop 5 hold css, css-1, css-2', 2, '1 x 50 @ 1:30 drop 5 hold css'],
    ['100-200-100 @ 2:00, 3:40, 1:50', 1, '100-200 @ 2:00, 3:40'],
    ['3 x 2 x 50 @ 1:00, 0:55', 1, '2 x 2 x 50 @ 1:00, 0:55'],
  ])('%s, %i fewer', (before, n, after) => {
    expect(textWithCut(before, POOL, 1, n)).toBe(after);
  });

  test('the other lines, their ends and a byte-order mark stay', () => {
    expect(textWithCut('\uFEFFOne\r\n4 x 50 @ 1:00\r\n4 x 50\n', POOL, 2, 1)).toBe(
      '\uFEFFOne\r\n3 x 50 @ 1:00\r\n4 x 50\n',
    );
    expect(textWithCut('\uFEFF4 x 50 @ 1:00', POOL, 1, 3)).toBe('\uFEFF1 x 50 @ 1:00');
  });

  test('what is neither a set nor rounds is a mistake of the caller', () => {
    expect(() => textWithCut('talk 1:00', POOL, 1, 1)).toThrow(/line 1/);
    expect(() => textWithCut('20:00 of 100s @ 2:00', POOL, 1, 1)).toThrow(/line 1/);
    expect(() => textWithCut('One\n', POOL, 2, 1)).toThrow(/line 2/);
  });

  test.each([
    ['6:00 choice # easy', '4:30 choice # easy'],
    ['  - 10 min choice', '  - 4:30 choice'],
    ["8' easy swim", '4:30 easy swim'],
    ['lanes 1-2: 20:00 of 100s free @ base', 'lanes 1-2: 4:30 of 100s free @ base'],
  ])('%s, shorter', (before, after) => {
    expect(textWithTime(`One\r\n${before}\r\n6:00`, POOL, 2, 270_000)).toBe(`One\r\n${after}\r\n6:00`);
  });

  test('a time is written on a line that is swum by time alone', () => {
    expect(() => textWithTime('4 x 50 @ 1:00', POOL, 1, 60_000)).toThrow(/line 1/);
  });

  test('the plan of the text that is left ends when the offered cut says', () => {
    let cuts = 0;
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 1, max: 40 }), (seed, sooner) => {
        const plan = planOf(validSession(seeded(seed), 4));
        if (plan.stretches.some(partsRounds)) return;
        const minutes = Math.max(1, Math.ceil(totalsOf(plan).duration / MINUTE) - sooner);
        const tight = planOf(booked(plan.source.text, minutes));
        const fitted = fitPlan(tight);
        if (!fitted) return;
        let text = tight.source.text;
        for (const { line, n, endsAt } of fitted.cuts) {
          if (fitted.serves === 'each') text = tight.source.text;
          text = textWithCut(text, tight.session.pool, line, n);
          expect(totalsOf(planOf(text)).duration).toBe(endsAt);
          cuts += 1;
        }
      }),
      // Two that are known to offer several cuts: the fewest runs must meet some too.
      {
        numRuns: runs(300),
        examples: [
          [21, 10],
          [38, 10],
        ],
      },
    );
    expect(cuts).toBeGreaterThan(runs(300) / 10);
  });
});

/** Where lanes meet within rounds a run keeps the meeting when a round is cut; a text never had it. */
function partsRounds({ kind, rounds, lanes }: Stretch): boolean {
  if (kind !== 'swim') return rounds.length > 0;
  return lanes.some(({ reps }) => reps.some(({ set }) => set.untimed && set.rounds.length > 0));
}

function planOf(text: string): NonNullable<ReturnType<typeof opened>> {
  const plan = opened(text);
  if (!plan) throw new Error(`not a session:\n${text}`);
  return plan;
}

function opened(text: string) {
  const result = openPlan({ text, lanesText: null });
  return result.ok ? result.value : null;
}

/** The session with a start at 6:00 and a finish so many minutes (under a day) later. */
function booked(text: string, minutes: number): string {
  const at = 360 + (minutes % 1439);
  const finish = `${Math.floor(at / 60) % 24}:${`${at % 60}`.padStart(2, '0')}`;
  const kept = text
    .replace('\uFEFF', '')
    .split('\n')
    .filter((line) => !/^\P{L}*(?:\p{L}\)\s*)?(?:start|finish)\b/iu.test(line));
  return ['start 6:00', `finish ${finish}`, ...kept].join('\n');
}
