/*
 * Whether the projected end is an estimate.
 */

import { expect, test } from 'vitest';
import { endIsEstimate } from '../../../../app/core/run/view/estimate.ts';
import { Deck } from '../../../support/run/deck.ts';

const started = (text: string) => new Deck(text).at(0, { do: 'start' });
const at = (deck: Deck, seconds: number) => endIsEstimate(deck.view(seconds));

test('[projection] waiting, nobody knows when the word comes; done, the end is known', () => {
  expect(at(new Deck('50 @ 1:00'), 1)).toBe(true);
  expect(at(started('50 easy').at(1, { do: 'finish' }), 2)).toBe(false);
  expect(at(started('50 @ 1:00\nbreak 0:30\n50 easy').at(20, { do: 'finish' }), 21)).toBe(false);
});

test('[projection] going: it is none where everything runs by the clock from here', () => {
  expect(at(started('2 x 50 @ 1:00'), 20)).toBe(false);
  expect(at(started('50 @ 1:00\nbreak 0:30\n50 @ 1:00'), 20)).toBe(false);
  expect(at(started('between auto 0:30\nOne\n50 @ 1:00\nTwo\n50 @ 1:00'), 20)).toBe(false);
});

test('[projection] going: it is one where a word of the coach is still to come', () => {
  const parts = 'One\n50 @ 1:00\nTwo\n50 @ 1:00';
  expect(at(started(parts), 20)).toBe(true);
  expect(at(started(parts).at(20, { do: 'move-on' }).at(25, { do: 'start' }), 40)).toBe(false);
  expect(at(started('between auto 0:30\n' + parts).at(75, { do: 'stop' }), 76)).toBe(true);
  expect(at(started('lane 1\nlane 2\n3 x 50 @ 1:00').at(20, { do: 'stop', lanes: [2] }), 21)).toBe(true);
});

test('[projection] going: it is one where an interval by a rest, or an untimed set, is still to be swum', () => {
  expect(at(started('50 @ 1:00\n50 rest 10'), 20)).toBe(true);
  expect(at(started('50 @ 1:00\n50 rest 10'), 75)).toBe(true);
  expect(at(started('50 @ 1:00\nbreak 0:30\n50 rest 10'), 20)).toBe(true);
  expect(at(started('50 @ 1:00\nbreak 0:30\n50 easy'), 20)).toBe(true);
  expect(at(started('200 easy'), 20)).toBe(true);
});

test('[projection] going: what has been swum by a rest makes it none any more, in this stretch or an earlier one', () => {
  expect(at(started('50 rest 10\n2 x 50 @ 1:00'), 20)).toBe(true);
  expect(at(started('50 rest 10\n2 x 50 @ 1:00'), 175)).toBe(false);
  const deck = new Deck('lane 1 base 1:40\n50 rest 10\nbreak 0:30\n2 x 50 @ 1:00').at(0, { do: 'start' });
  const { end } = deck.view(20).projectedTimes[1]!;
  expect(at(deck, end / 1000 - 1)).toBe(false);
  expect(at(deck, end / 1000 + 1)).toBe(false);
  // In a countdown the last leave is still that of the stretch before.
  const parts = started('A\n50 rest 10\nB\n50 @ 1:00').at(20, { do: 'move-on' }).at(24, { do: 'start' });
  expect(at(parts, 25)).toBe(false);
});

test('[projection] going: a lane that takes no part makes it none', () => {
  const text = 'lane 1\nlane 2\n3/0 x 50 @ 1:00\n0/2 x 50 rest 10';
  expect(at(started(text), 15)).toBe(true);
  expect(at(started(text).at(15, { do: 'lane-out', lanes: [2] }), 16)).toBe(false);
});
