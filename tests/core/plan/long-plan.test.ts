/*
 * The plan of the longest sessions. Apart from the other tests of plans, so that those are quick.
 */

import { expect, test } from 'vitest';
import { openPlan } from '../../../app/core/plan/open-plan.ts';
import { base, lane, planOf, rounds, set } from '../../support/coach/hand-session.ts';

test('planning takes time in proportion to the leaves: 100 000 of them in well under a second of work', () => {
  const lanes = Array.from({ length: 20 }, (_, index) => lane(index));
  const items = [rounds(1, 500, set(2, 10, 50, { lanes: 20, timing: base(0, 20) }))];
  const before = process.cpuUsage();
  const plan = planOf(items, { lanes });
  const took = process.cpuUsage(before).user / 1000;
  expect(plan.stretches[0]!.lanes.reduce((sum, { reps }) => sum + reps.length, 0)).toBe(100_000);
  expect(took).toBeLessThan(1000);
});

test('as many as 100 000 talks are written out', () => {
  const fewer = openPlan({ text: '4 x 50 @ 1:00\n500 rounds\n  200 rounds\n    talk 0:01', lanesText: null });
  expect(fewer.ok && fewer.value.stretches.length).toBe(100_001);
});

test('talks in rounds in rounds are refused before they are written out', () => {
  const text = '4 x 50 @ 1:00\n500 rounds\n  500 rounds\n    500 rounds\n      500 rounds\n        talk 0:01';
  const opened = openPlan({ text, lanesText: null });
  expect(opened).toMatchObject({ ok: false, faults: { in: 'session', faults: [{ line: 2, column: 1 }] } });
});
