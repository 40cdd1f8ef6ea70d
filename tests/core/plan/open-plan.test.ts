import { expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';

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

test('talks in rounds in rounds are refused before they are written out', () => {
  const text = '4 x 50 @ 1:00\n500 rounds\n  500 rounds\n    500 rounds\n      500 rounds\n        talk 0:01';
  const opened = openPlan({ text, lanesText: null });
  expect(opened).toMatchObject({ ok: false, faults: { in: 'session', faults: [{ line: 2, column: 1 }] } });
  const fewer = openPlan({ text: '4 x 50 @ 1:00\n500 rounds\n  200 rounds\n    talk 0:01', lanesText: null });
  expect(fewer.ok && fewer.value.stretches.length).toBe(100_001);
});
