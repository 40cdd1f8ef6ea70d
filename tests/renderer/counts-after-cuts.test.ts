/*
 * After a cut every screen counts the reps and rounds that there now are.
 */

import { describe, expect, test } from 'vitest';
import { singleCuts } from '../../app/core/run/hour/fit.ts';
import { changedSince } from '../../app/core/run/command/expected-reps.ts';
import type { RunState } from '../../app/core/run/state.ts';
import { view } from '../../app/core/run/view.ts';
import { headText } from '../../renderer/desk/run/head-text.ts';
import { outlineParts } from '../../renderer/desk/outline/outline-rows.ts';
import { nextLeaveOf } from '../../renderer/remote/next-leave.ts';
import { runOf } from '../support/coach/coach-run.ts';

const EIGHT = 'lane 1\nlane 2\nMain\n8 x 75 free @ 1:30\nSwim-down\n4 x 50 easy @ 1:00';
const ROUNDS = 'lane 1\nMain\n4 rounds\n  2 x 50 fast @ 1:00\nSwim-down\n4 x 50 easy @ 1:00';

const going = runOf(EIGHT, [0, { do: 'start' }], [20_000, { do: 'cut', line: 4, n: 3 }]);
const rounds = runOf(ROUNDS, [0, { do: 'start' }], [20_000, { do: 'cut', line: 3, n: 1 }]);
const outline = (state: RunState) => outlineParts(view(state, 30_000), () => true).flatMap(({ lines }) => lines);

describe('after a cut', () => {
  test('the head names the set as it now is', () => {
    expect(headText(view(going, 30_000)).set).toBe('5 x 75 free');
    expect(headText(view(rounds, 30_000)).set).toBe('3 rounds: 2 x 50 fast');
  });

  test('the outline counts what is left, and goes no further', () => {
    expect(outline(going)[0]).toMatchObject({ text: '5 x 75 free', target: { reps: 5 } });
    expect(outline(rounds)[0]).toMatchObject({ text: '3 rounds', target: { rounds: [{ of: 3 }] } });
  });

  test('the remote counts what waits', () => {
    const waiting = runOf(EIGHT, [0, { do: 'cut', line: 4, n: 3 }]);
    expect(nextLeaveOf(view(waiting, 1000), null, 'stretch').what).toBe('Next: 5 x 75 free');
  });

  test('a further cut is offered of what is left', () => {
    expect(singleCuts(rounds, 30_000).find(({ line }) => line === 3)).toMatchObject({ kind: 'rounds', of: 3 });
  });

  test('a refusal that says what a lane has come to counts so too', () => {
    const seen = { '1': { line: 4, rounds: [], rep: 1 } };
    expect(changedSince(going, { do: 'skip', lanes: [1] }, seen, 30_000)).toContain('rep 2 of 5 of line 4');
  });
});
