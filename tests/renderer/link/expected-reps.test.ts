/* What goes with a command that drops, moves or repeats reps: each lane's next, as it was shown. */

import { expect, test } from 'vitest';
import { view } from '../../../app/core/run/view.ts';
import { expectedRepsIn } from '../../../renderer/link/expected-reps.ts';
import { runOf } from '../../support/coach/coach-run.ts';

test('[expected reps] by lane the line, the rounds from the outermost and the rep; null for a lane that has none to come', () => {
  const text = 'lane 1\nlane 2\nMain set\n2 rounds\n  2 rounds\n    3 x 50 @ 1:00\n';
  const state = runOf(text, [0, { do: 'start' }], [1000, { do: 'lane-out', lanes: [2] }]);
  // Three reps of the first round and one of the second have left.
  expect(expectedRepsIn(view(state, 200_000))).toEqual({ 1: { line: 6, rounds: [1, 2], rep: 2 }, 2: null });
});
