// What has left, as facts in order.

import { beforeEach, describe, expect, test } from 'vitest';
import { leavesOf, sameLeave, type Leave } from '../../../app/core/run/record.ts';
import { Deck } from '../../support/run/deck.ts';

const leaves = (text: string, until = 100): readonly Leave[] =>
  leavesOf(new Deck(text).at(0, { do: 'start' }).settled(until));

test('leaves come by time and then by lane number, those after a time alone', () => {
  const deck = new Deck('lane 1\nlane 2\n3 x 50 @ 1:00/0:30').at(0, { do: 'start' });
  const told = (after?: number) => leavesOf(deck.settled(100), after).map(({ lane, at }) => `${lane} ${at / 1000}`);
  expect(told()).toEqual(['1 10', '2 10', '2 40', '1 70', '2 70']);
  expect(told(40_000)).toEqual(['1 70', '2 70']);
  expect(told(70_000)).toEqual([]);
});

describe('two leaves are the same', () => {
  let first: Leave;
  beforeEach(() => {
    first = leaves('lane 1\nlane 2\n2 x 50 @ 1:00')[0]!;
  });

  test('by lane, time and rep', () => {
    expect(sameLeave(first, { ...first })).toBe(true);
    expect(sameLeave(first, leaves('lane 1\nlane 2\n2 x 50 @ 1:10')[0]!)).toBe(true);
    expect(sameLeave(first, { ...first, lane: 2 })).toBe(false);
    expect(sameLeave(first, { ...first, at: 10_001 })).toBe(false);
    expect(sameLeave(first, { ...first, rep: { ...first.rep, rep: 2 } })).toBe(false);
  });

  test.each([
    ['another count', 'lane 1\nlane 2\n3 x 50 @ 1:00'],
    ['another distance', 'lane 1\nlane 2\n2 x 75 @ 1:00'],
    ['another line', 'lane 1\nlane 2\n\n2 x 50 @ 1:00'],
    ['rounds around it', 'lane 1\nlane 2\n2 x 2 x 50 @ 1:00'],
  ])('not where a rewrite has put %s there', (_, text) => {
    expect(sameLeave(first, leaves(text)[0]!)).toBe(false);
    expect(sameLeave(leaves(text)[0]!, first)).toBe(false);
  });

  test('not in another round', () => {
    const [one, two] = leaves('2 rounds\n  50 @ 1:00');
    expect(sameLeave(one!, { ...two!, at: one!.at })).toBe(false);
    expect(sameLeave(one!, { ...one! })).toBe(true);
  });
});
