/*
 * What has happened by a view's t.
 */

import { expect, test } from 'vitest';
import { countIn } from '../../../../app/core/run/view/count.ts';
import { givenIn } from '../../../../app/core/run/view/given.ts';
import { leavesIn, swumIn } from '../../../../app/core/run/view/record.ts';
import { Deck } from '../../../support/run/deck.ts';

const deck = () => new Deck('lane 1\nlane 2\nlane 4\n3/2/0 x 50 @ 1:00\n0/1/0 x 100 @ 2:00').at(0, { do: 'start' });

test('[record] every leave by time and then lane, and once the session is done the same list each time', () => {
  const leaves = leavesIn(deck().view(75)).map(({ lane, at }) => [lane, at / 1000]);
  expect(leaves).toEqual([
    [1, 10],
    [2, 10],
    [1, 70],
    [2, 70],
  ]);
  const done = deck().at(80, { do: 'finish' });
  expect(leavesIn(done.view(90))).toBe(leavesIn(done.view(300)));
});

test('[record] reps and distance by lane; a lane that has not left has no entry', () => {
  const swum = (seconds: number) => Object.fromEntries(swumIn(deck().view(seconds)));
  expect(swum(5)).toEqual({});
  expect(swum(75)).toEqual({ 1: { reps: 2, distance: 1000 }, 2: { reps: 2, distance: 1000 } });
  expect(swum(200)).toEqual({ 1: { reps: 3, distance: 1500 }, 2: { reps: 3, distance: 2000 } });
  const done = deck().at(200, { do: 'finish' });
  expect(swumIn(done.view(300))).toBe(swumIn(done.view(400)));
});

test('[record] a leave counts once, whatever is commanded between', () => {
  const moved = deck()
    .at(20, { do: 'shift', seconds: 5 })
    .at(80, { do: 'skip', lanes: [1] });
  expect(Object.fromEntries(swumIn(moved.view(90)))).toEqual({
    1: { reps: 2, distance: 1000 },
    2: { reps: 2, distance: 1000 },
  });
});

test('[view] as the last accepted command left it; a run just opened, at t = 0', () => {
  expect(givenIn(new Deck('50 @ 1:00').state).t).toBe(0);
  const given = givenIn(new Deck('50 @ 1:00').at(7, { do: 'start' }).state);
  expect([given.t, given.phase]).toEqual([7000, 'going']);
});

test('[cut] of a rep that no lane has as its next there are as many as now stand', () => {
  const view = new Deck('4 x 50 @ 1:00').at(0, { do: 'cut', line: 1, n: 1 }).view(1);
  const [rep] = view.stretches[0]!.lanes[0]!.reps;
  expect(countIn(view, rep!, 0)).toEqual({ of: 3, rounds: [] });
});
