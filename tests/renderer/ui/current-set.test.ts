/*
 * Which set a session is in: the one being swum, not the one whose first leave comes next.
 */

import { describe, expect, it } from 'vitest';
import { view, type RunView } from '../../../app/core/run/view.ts';
import type { RunState } from '../../../app/core/run/state.ts';
import { swumNow } from '../../../renderer/ui/current-set.ts';
import { besideWords, NO_CUTS } from '../../../app/core/words/set.ts';
import { runOf } from '../../support/coach/coach-run.ts';

const EVENING = `Harbour squad
lane 1 base 1:30
lane 2 base 1:40

Warm-up
6:00 choice
4 x 50 back @ 1:00/1:10
200 easy

Main set
3 rounds
  100 steady @ 1:30/2:00
  2 x 50 fast @ 1:00
talk 1:30 turns

Swim-down
4 x 50 easy @ 1:10
`;

/** Starts, so that the first stretch has its T0 at 10 s. */
const START = [0, { do: 'start' }] as const;

describe('what is swum now', () => {
  it('is a swim by time for all its six minutes, until the next leave is at hand', () => {
    const state = runOf(EVENING, START);
    expect(said(state, 10)).toBe('6:00 choice, then 4 x 50 back');
    expect(said(state, 359.9)).toBe('6:00 choice, then 4 x 50 back');
    expect(said(state, 360)).toBe('4 x 50 back, then 200 easy');
  });

  it('is what comes first during a countdown and while the coach is waited for', () => {
    expect(said(runOf(EVENING), 0)).toBe('6:00 choice, then 4 x 50 back');
    expect(said(runOf(EVENING, START), 1)).toBe('6:00 choice, then 4 x 50 back');
    // The warm-up is over at 850 s, when lane 2 is through with its 200.
    expect(said(runOf(EVENING, START), 849)).toBe('200 easy, then 3 rounds: 100 steady, 2 x 50 fast');
    expect(said(runOf(EVENING, START), 851)).toBe('3 rounds: 100 steady, 2 x 50 fast, then talk 1:30 turns');
  });

  it('is what most lanes swim, and of two sets the earlier', () => {
    // T0 at 10 s. The 200 begins at 610 s in lane 1 and at 650 s in lane 2; nothing leaves after that.
    const state = runOf(EVENING, START);
    expect(said(state, 599)).toBe('4 x 50 back, then 200 easy');
    expect(said(state, 639)).toBe('4 x 50 back, then 200 easy');
    expect(said(state, 641)).toBe('200 easy, then 3 rounds: 100 steady, 2 x 50 fast');
    // A third lane is through with its 50s at 610 s as well.
    const three = runOf(
      EVENING.replace('lane 2', 'lane 3 base 1:30\nlane 2')
        .replace('1:00/1:10', '1:00/1:10/1:00')
        .replace('1:30/2:00', '2:00'),
      START,
    );
    expect(said(three, 639)).toBe('200 easy, then 3 rounds: 100 steady, 2 x 50 fast');
  });

  it('is not asked of a lane that is in and has had its last interval', () => {
    const text = 'lane 1\nlane 2\nlane 3\nSet\n2/2/8 x 50 fast @ 1:00\n0/0/2 x 100 easy @ 2:00';
    // T0 at 10 s: lanes 1 and 2 are in at 130 s, lane 3 swims its 100s from 490 s on.
    expect(said(runOf(text, START), 500)).toBe('0/0/2 x 100 easy, then nothing');
  });

  it('stays with a stopped lane while its leave is far, and moves on when that has passed', () => {
    const state = runOf(EVENING, START, [100_000, { do: 'stop' }]);
    expect(said(state, 300)).toBe('6:00 choice, then 4 x 50 back');
    expect(said(state, 400)).toBe('4 x 50 back, then 200 easy');
  });

  it('is a talk while it lasts', () => {
    const state = runOf(EVENING, ...passing(2), [10_000, { do: 'start' }]);
    expect(said(state, 20)).toBe('talk 1:30 turns, then 4 x 50 easy');
  });

  it('has nothing after the last', () => {
    expect(said(runOf(EVENING, ...passing(3)), 20)).toBe('4 x 50 easy, then nothing');
  });

  it('is nothing where no lane that is in swims anything of the stretch', () => {
    const state = runOf('lane 1\nlane 2\nSet\n4/0 x 50 fast @ 1:00\nOther\n2 x 50', [
      0,
      { do: 'lane-out', lanes: [1] },
    ]);
    expect(said(state, 1)).toBe('nothing');
  });
});

describe('sets that some lanes have of their own', () => {
  const APART = 'lane 1\nlane 2\nlane 3\nSet\nlanes 1-2: 4 x 100 @ 2:00\nlane 3: 2 x 100 @ 2:00\n50 easy @ 1:00';

  it('are said together while they are swum at the same time, and what comes next is what comes after both', () => {
    const both = 'lanes 1 and 2: 4 x 100; lane 3: 2 x 100, then 50 easy';
    expect([0, 20, 200].map((seconds) => said(runOf(APART, START), seconds))).toEqual([both, both, both]);
    // Lane 3 swims its 50 at 250 s.
    expect(said(runOf(APART, START), 251)).toBe('lanes 1 and 2: 4 x 100, then 50 easy');
    expect(said(runOf(APART, START, [20_000, { do: 'stop' }]), 25)).toBe(both);
  });

  it('are said in the order of the text, whichever most lanes swim', () => {
    const text = APART.replace('lanes 1-2', 'lane 1').replace('lane 3:', 'lanes 2-3:');
    expect(said(runOf(text, START), 20)).toBe('lane 1: 4 x 100; lanes 2 and 3: 2 x 100, then 50 easy');
  });

  it('come next together', () => {
    expect(said(runOf(APART.replace('Set\n', 'Set\n200 @ 4:00\n'), START), 20)).toBe(
      '200, then lanes 1 and 2: 4 x 100; lane 3: 2 x 100',
    );
  });

  it('are not said of a lane that is out', () => {
    const state = runOf(APART, START, [20_000, { do: 'lane-out', lanes: [3] }]);
    expect(said(state, 25)).toBe('lanes 1 and 2: 4 x 100, then 50 easy');
  });

  it('come one after the other where the same lane swims both', () => {
    const text = 'lane 1\nlane 2\nSet\nlane 1: 2 x 100 @ 2:00\nlane 2: 4 x 100 @ 2:00\nlane 1: 4 x 50 @ 1:00';
    expect(said(runOf(text, START), 20)).toBe('lane 1: 2 x 100; lane 2: 4 x 100, then lane 1: 4 x 50');
    expect(said(runOf(text, START), 260)).toBe('lane 2: 4 x 100; lane 1: 4 x 50, then nothing');
  });
});

describe('the rounds that all lanes are in', () => {
  it('are those of the set being swum, and none while lanes are in different ones', () => {
    // T0 at 20 s. Lane 1: 100 at 20, 50s at 110 and 170, round 2 at 230. Lane 2: 20, 140, 200, round 2 at 260.
    const state = runOf(EVENING, ...passing(1), [10_000, { do: 'start' }]);
    expect(rounds(state, 219)).toEqual([1]);
    expect(rounds(state, 221)).toEqual([]);
    expect(rounds(state, 251)).toEqual([2]);
  });
});

describe('after cuts, and before a start', () => {
  it('[R5] counts rounds as they now are', () => {
    const state = runOf(EVENING, ...passing(1), [10_000, { do: 'start' }], [21_000, { do: 'cut', line: 11, n: 1 }]);
    expect(swumNow(at(state, 30))?.rounds).toMatchObject([{ round: 1, of: 2 }]);
  });

  it('while the coach is waited for it is what a lane begins with first, on every screen', () => {
    const text = 'lane 1\nlane 2\nlane 3\nSet\n2/0/0 x 50 fast @ 1:00\n4 x 100 easy @ 2:00';
    expect(said(runOf(text), 0)).toBe('2/0/0 x 50 fast, then 4 x 100 easy');
  });
});

/** Move on, once a second: each passes one stretch over while nothing is going. */
function passing(stretches: number): [number, { do: 'move-on' }][] {
  return Array.from({ length: stretches }, (_, index) => [index * 1000, { do: 'move-on' }]);
}

function at(state: RunState, seconds: number): RunView {
  return view(state, seconds * 1000);
}

function said(state: RunState, seconds: number): string {
  const now = swumNow(at(state, seconds));
  if (!now) return 'nothing';
  return `${besideWords(now.items, NO_CUTS)}, then ${now.after ? besideWords(now.after.items, NO_CUTS) : 'nothing'}`;
}

function rounds(state: RunState, seconds: number): number[] {
  return (swumNow(at(state, seconds))?.rounds ?? []).map(({ round }) => round);
}
