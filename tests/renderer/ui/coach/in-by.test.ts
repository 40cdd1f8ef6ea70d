/*
 * When the swimmers of a lane without further leaves will be in, in the window and on the remote.
 */

import { expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import { inByText } from '../../../../app/core/words/time/clock.ts';
import { nextLeaveOf } from '../../../../renderer/remote/next-leave.ts';
import { runOf } from '../../../support/coach/coach-run.ts';

/** T0 at 10 s: lane 1 leaves last at 70 s and is in at 130 s, lane 2 leaves last at 190 s. */
const TAIL = runOf('lane 1\nlane 2\nSet\n2/4 x 50 @ 1:00', [0, { do: 'start' }]);
const UNTIMED = runOf('lane 1 base 1:30\nSet\n200 easy', [0, { do: 'start' }]);

const inBy = (state: typeof TAIL, seconds: number): string => {
  const now = view(state, seconds * 1000);
  return inByText('stretch', now, now.lanes[0]!);
};

test('a lane through with its leaves is in by a reading, then finished', () => {
  expect(view(TAIL, 71_000).lanes[0]?.state).toBe('finished');
  expect(inBy(TAIL, 71)).toBe('in by 2:00');
  expect(inBy(TAIL, 129.9)).toBe('in by 2:00');
  expect(inBy(TAIL, 130)).toBe('finished');
});

test('of an untimed set it is an estimate, and stays one', () => {
  expect(inBy(UNTIMED, 12)).toBe('in by ≈3:00');
  expect(inBy(UNTIMED, 600)).toBe('in by ≈3:00');
});

test('[sit-out] a lane that sits out is in by nothing, on the remote too', () => {
  const sat = runOf('lane 1\nlane 2\nSet\n50 @ 1:00', [0, { do: 'start' }], [1000, { do: 'sit-out', lanes: [1] }]);
  const now = view(sat, 20_000);
  expect([1, 2, null].map((lane) => nextLeaveOf(now, lane, 'stretch').leave)).toEqual([
    'sits out',
    'in by 1:00',
    'in by 1:00',
  ]);
});

test('the remote says it for the lane it looks after, and for all the last of them', () => {
  expect(nextLeaveOf(view(TAIL, 71_000), null, 'stretch').leave).toBe('2:00');
  expect(nextLeaveOf(view(TAIL, 71_000), 1, 'stretch').leave).toBe('in by 2:00');
  expect(nextLeaveOf(view(TAIL, 191_000), null, 'stretch').leave).toBe('in by 4:00');
});
