// A place in the order of the session.

import { beforeEach, expect, test } from 'vitest';
import type { Stretch } from '../../../app/core/plan/plan.ts';
import { isEmpty, placeIn, startingFrom } from '../../../app/core/run/place.ts';
import { planOf } from '../../support/run/deck.ts';

const TEXT = 'lane 1\nlane 2\n2 rounds\n  2/0 x 50 @ 1:00\n  3 x 100 @ 2:00';
let stretch: Stretch;
beforeEach(() => {
  stretch = planOf(TEXT).stretches[0]!;
});

test('a rep is found in whichever lane swims it, by its line, rounds and rep', () => {
  expect(placeIn(stretch, { line: 4, rounds: [2], rep: 2 })).toEqual({ order: 2, rep: 2, line: 4, rounds: [2] });
  expect(placeIn(stretch, { line: 5, rounds: [1], rep: 3 })).toEqual({ order: 1, rep: 3, line: 5, rounds: [1] });
  for (const rounds of [[], [3], [1, 1]]) expect(placeIn(stretch, { line: 4, rounds, rep: 2 })).toBeNull();
  expect(placeIn(stretch, { line: 4, rounds: [1], rep: 3 })).toBeNull();
  expect(placeIn(stretch, { line: 4, rep: 1 })).toBeNull();
});

test('each lane starts with its first rep not before a place, all at offset 0', () => {
  const from = placeIn(stretch, { line: 4, rounds: [2], rep: 2 })!;
  const starts = stretch.lanes.map((lane) => {
    const { reps, length } = startingFrom(lane, from);
    return [reps.length, reps[0]!.rep, reps[0]!.set.line, reps[0]!.offset, reps[1]!.offset, length];
  });
  expect(starts).toEqual([
    [4, 2, 4, 0, 60_000, 420_000],
    [3, 1, 5, 0, 120_000, 360_000],
  ]);
  expect(startingFrom(stretch.lanes[0]!, null)).toBe(stretch.lanes[0]);
});

test('nothing is left from a place behind the last rep of every lane', () => {
  const last = placeIn(stretch, { line: 5, rounds: [2], rep: 3 })!;
  expect(isEmpty(stretch, last)).toBe(false);
  expect(isEmpty(stretch, { ...last, rep: 4 })).toBe(true);
  expect(startingFrom(stretch.lanes[0]!, { ...last, rep: 4 })).toEqual({ reps: [], length: 0 });
  expect(isEmpty(stretch)).toBe(false);
  const uneven = planOf('lane 1\nlane 2\n2/1 x 50 @ 1:00').stretches[0]!;
  expect(isEmpty(uneven, placeIn(uneven, { line: 3, rep: 2 }))).toBe(false);
});
