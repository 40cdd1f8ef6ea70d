import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { seeded, validSession } from '../../support/formats/session-text.ts';
import { runs } from '../../support/run/runs.ts';

test('a session and its lanes file become a plan that knows its texts', () => {
  const source = {
    text: 'lane 2 base 1:40\n4 x 50 @ base',
    lanesText: 'pool 50 m\nlane 1 base 1:30\nlane 2 base 2:00',
  };
  const opened = openPlan(source);
  if (!opened.ok) throw new Error(JSON.stringify(opened.faults));
  const { session, stretches } = opened.value;
  expect(opened.value.source).toBe(source);
  expect(session.pool.length).toBe(5000);
  expect(stretches[0]!.lanes.map(({ reps }) => reps.map(({ interval }) => interval / 1000))).toEqual([
    [45, 45, 45, 45],
    [50, 50, 50, 50],
  ]);
});

test('faults say which text they are in; those of the lanes file come first', () => {
  const both = openPlan({ text: '4 x 50 @ 1.30', lanesText: 'lane 1 base 9' });
  expect(both).toMatchObject({ ok: false, faults: { in: 'lanes', faults: [{ line: 1 }] } });
  const session = openPlan({ text: '4 x 50 @ 1:00\n4 x 50 @ 1.30', lanesText: null });
  expect(session).toMatchObject({ ok: false, faults: { in: 'session', faults: [{ line: 2, column: 10 }] } });
});

test('more than 100 000 talks are refused, at the line with which there are', () => {
  const text = '4 x 50 @ 1:00\n2 rounds\n  500 rounds\n    101 rounds\n      talk 0:01';
  const opened = openPlan({ text, lanesText: null });
  expect(opened).toMatchObject({ ok: false, faults: { in: 'session', faults: [{ line: 2, column: 1 }] } });
  const [two, over] = ['500 rounds\n  100 rounds\n    talk 0:01\n    break 0:01', 'talk 0:01'];
  expect(openPlan({ text: `4 x 50 @ 1:00\n${two}\n50 @ 1:00\n${over}`, lanesText: null })).toEqual({
    ok: false,
    faults: {
      in: 'session',
      faults: [
        {
          line: 7,
          column: 1,
          message: 'with this line there are more than 100000 talks and breaks: write fewer rounds',
        },
      ],
    },
  });
});

/** A text with one line taken out, written twice, or given words. */
function edited(text: string, at: number, how: number): string {
  const lines = text.split('\n');
  const index = at % lines.length;
  const line = lines[index]!;
  lines.splice(index, 1, ...[[], [line, line], [`${line} smooth`]][how % 3]!);
  return lines.join('\n');
}

test('a plan that takes over what has not changed is the plan of the new text', () => {
  // Of ten it may happen to none.
  const many = Math.max(50, runs(250));
  let taken = 0;
  fc.assert(
    fc.property(fc.nat(), fc.nat(), fc.nat(2), (seed, at, how) => {
      const before = openPlan({ text: validSession(seeded(seed), 6), lanesText: null });
      if (!before.ok) throw new Error(JSON.stringify(before.faults));
      const source = { text: edited(before.value.source.text, at, how), lanesText: null };
      const after = openPlan(source, before.value);
      expect(after).toEqual(openPlan(source));
      if (after.ok && after.value.stretches.some((one) => before.value.stretches.includes(one))) taken += 1;
    }),
    { numRuns: many },
  );
  expect(taken).toBeGreaterThan(many / 20);
});

test('nothing is taken over where other lanes are in force', () => {
  const text = 'One\n4 x 50 @ base\nTwo\n100';
  const before = openPlan({ text, lanesText: 'lane 1 base 1:30' });
  const source = { text, lanesText: 'lane 1 base 2:00' };
  expect(openPlan(source, before.ok ? before.value : null)).toEqual(openPlan(source));
});

test.each([
  ['ends in a talk', 'talk 1:00'],
  ['ends with a set that one lane sits out', '2/0 x 50 @ 1:00'],
  ['has nothing but a set that one lane sits out', 'Three\n2/0 x 50 @ 1:00'],
  ['has a set that one lane sits out before its last', '2/0 x 50 @ 1:00\n4 x 25 @ 0:30'],
])('passages through sets are numbered on from 0, also where what is taken over %s', (_, last) => {
  const text = (after: string) => `lane 1\nlane 2\nOne\n2 x 100 @ 2:00\n${last}\nTwo\n${after}`;
  const source = { text: text('4 x 50 fast @ 1:00'), lanesText: null };
  const before = openPlan({ text: text('4 x 50 @ 1:00'), lanesText: null });
  const after = openPlan(source, before.ok ? before.value : null);
  expect(after).toEqual(openPlan(source));
  const orders = after.ok ? after.value.stretches.flatMap(({ lanes }) => lanes.flatMap(({ reps }) => reps)) : [];
  const numbers = [...new Set(orders.map(({ set }) => set.order))].sort((a, b) => a - b);
  expect(numbers).toEqual(numbers.map((__, index) => index));
  expect(numbers.length).toBeGreaterThan(1);
});

test('the second passage of a session is number 1, also where a lane sits the first out', () => {
  const text = (words: string) => `lane 1\nlane 2\nOne\n2/0 x 50 @ 1:00\nTwo\n50 ${words} @ 1:00`;
  const before = openPlan({ text: text('easy'), lanesText: null });
  const after = openPlan({ text: text('fast'), lanesText: null }, before.ok ? before.value : null);
  expect(after.ok && after.value.stretches[1]!.lanes[0]!.reps[0]!.set.order).toBe(1);
});

test('a text that is the same is planned already', () => {
  const source = { text: 'One\n4 x 50 @ 1:00\nTwo\n100', lanesText: null };
  const before = openPlan(source);
  const after = openPlan(source, before.ok ? before.value : null);
  expect(after.ok && before.ok && after.value.stretches.every((one, at) => one === before.value.stretches[at])).toBe(
    true,
  );
});
