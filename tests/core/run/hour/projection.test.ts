// When the session will be over, as things stand.

import { expect, test } from 'vitest';
import { projectedEnd, projectedTimes } from '../../../../app/core/run/hour/projection.ts';
import { Deck } from '../../../support/run/deck.ts';

const TEXT = 'One\n2 x 50 @ 1:00\nbreak 0:32\n50 @ 1:00\nTwo\n50 @ 1:00';

/** Start and end of every stretch from the current one on, in seconds. */
function times(deck: Deck, seconds: number): number[][] {
  const now = deck.settled(seconds);
  return projectedTimes(now, seconds * 1000).map(({ start, end }) => [start / 1000, end / 1000]);
}

test('[projection] waiting: the current stretch as if started now, the rest by the rule of the plan', () => {
  expect(times(new Deck(TEXT), 1)).toEqual([
    [15, 135],
    [135, 167],
    [170, 230],
    [290, 350],
  ]);
  expect(new Deck(TEXT).projected(1)).toBe(350);
});

test('[projection] waiting at a talk, which begins at the word, and from the place a go-to named', () => {
  expect(times(new Deck('talk 1:00\n50 @ 1:00'), 1)).toEqual([
    [1, 61],
    [65, 125],
  ]);
  expect(times(new Deck(TEXT).at(0, { do: 'go-to', line: 2, rep: 2 }), 1)[0]).toEqual([15, 75]);
});

test('[projection] going: from its T0; stopped lanes as if resumed now, a talk or break not before now', () => {
  const deck = new Deck(TEXT).at(0, { do: 'start' });
  expect(times(deck, 20).slice(0, 2)).toEqual([
    [10, 130],
    [130, 162],
  ]);
  expect(times(deck.at(20, { do: 'stop' }), 100)[0]).toEqual([10, 170]);
  expect(times(new Deck(TEXT).at(0, { do: 'start' }), 140)[0]).toEqual([130, 162]);
});

test('[projection] an untimed last set that goes on ends now, once it is over its length', () => {
  const deck = new Deck('base 1:30\n100 easy'.replace('base', 'lane 1 base')).at(0, { do: 'start' });
  const planned = deck.projected(11);
  expect(deck.projected(planned + 100)).toBe(planned + 100);
});

test('[projection] lanes that are out do not count', () => {
  const deck = new Deck('lane 1\nlane 2\nOne\n1/4 x 50 @ 1:00\nTwo\n1/4 x 50 @ 1:00').at(0, {
    do: 'lane-out',
    lanes: [2],
  });
  expect(times(deck, 1)).toEqual([
    [15, 75],
    [135, 195],
  ]);
});

test('[projection] done: when it was done, and nothing more to come', () => {
  const deck = new Deck(TEXT).at(7, { do: 'finish' });
  expect(projectedEnd(deck.state, 9000)).toBe(7000);
  expect(projectedTimes(deck.state, 9000)).toEqual([]);
});
