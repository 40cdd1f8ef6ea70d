/*
 * What the head of the window names.
 */

import { describe, expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import type { RunState } from '../../../../app/core/run/state.ts';
import { headText } from '../../../../renderer/desk/run/head-text.ts';
import { HARBOUR, runOf } from '../../../support/coach/coach-run.ts';

const at = (state: RunState, seconds: number) => headText(view(state, seconds * 1000));

const TURNS = `lane 1 base 1:30
Warm-up
6:00 choice
4 x 50 back @ 1:00

Main set
2 rounds
  2 x 50 fast @ 1:00
  break 0:30 drink
100 easy
`;

describe('the head', () => {
  test('names the set being swum, and what comes after it', () => {
    const state = runOf(TURNS, [0, { do: 'start' }]);
    expect(at(state, 200)).toEqual({ part: 'Warm-up', set: '6:00 choice', then: 'Then 4 x 50 back', rounds: null });
    expect(at(state, 371)).toMatchObject({
      set: '4 x 50 back',
      then: 'Then Main set: 2 rounds: 2 x 50 fast, break 0:30 drink',
    });
  });

  test('says what waits, and that the last is the last', () => {
    expect(at(runOf(HARBOUR), 0)).toMatchObject({
      set: 'Next: 200 easy',
      then: 'Then Main set: 3 rounds: 150 steady, 4 x 50 fast',
    });
    const last = runOf(HARBOUR, [0, { do: 'move-on' }], [1000, { do: 'move-on' }], [2000, { do: 'move-on' }]);
    expect(at(last, 4)).toMatchObject({ set: 'Next: 4 x 50 easy', then: 'The last of the session' });
  });

  test('names together what lanes swim at the same time, each its own set', () => {
    const text = 'lane 1\nlane 2\nSet\nlane 1: 4 x 100 @ 2:00\nlane 2: 2 x 100 @ 2:00\n50 easy @ 1:00\n';
    expect(at(runOf(text, [0, { do: 'start' }]), 20)).toMatchObject({
      set: 'lane 1: 4 x 100; lane 2: 2 x 100',
      then: 'Then 50 easy',
    });
  });

  test('after a break in rounds comes the set of the next round, after the last one what follows the rounds', () => {
    // T0 at 15 s: the 50s until 135 s, break, round 2 from 165 s, its break from 285 s.
    const state = runOf(TURNS, [0, { do: 'move-on' }], [4000, { do: 'start' }]);
    expect(at(state, 20)).toMatchObject({ set: '2 rounds: 2 x 50 fast, break 0:30 drink', then: 'Then 100 easy' });
    expect(at(state, 20).rounds).toMatchObject([{ round: 1, of: 2 }]);
    expect(at(state, 140)).toMatchObject({ set: 'Break 0:30 drink', then: 'Then 2 x 50 fast', rounds: null });
    expect(at(state, 290)).toMatchObject({ set: 'Break 0:30 drink', then: 'Then 100 easy' });
  });

  test('[kit] names the part that the kit is for, before what comes after it', () => {
    const state = runOf('Squad\nlane 1\n\nMain set\nkit: boards\n4 x 50 kick @ 1:30\n\nSwim-down\n100 easy @ 3:00\n', [
      0,
      { do: 'start' },
    ]);
    expect(at(state, 20).then).toBe('Kit for Main set: boards. Then Swim-down: 100 easy');
  });

  test('of rounds that wait to be gone on with, it says what is left', () => {
    const waits = runOf(TURNS, [0, { do: 'move-on' }], [4000, { do: 'start' }], [140_000, { do: 'move-on' }]);
    expect(at(waits, 141)).toMatchObject({ set: 'Next: round 2 of 2: 2 x 50 fast, break 0:30 drink' });
    expect(at(runOf(TURNS, [0, { do: 'move-on' }]), 1).set).toBe('Next: 2 rounds: 2 x 50 fast, break 0:30 drink');
  });
});
