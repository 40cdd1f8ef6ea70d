// The next rep dropped, and what follows sooner.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

const started = (text: string): Deck => new Deck(text).at(0, { do: 'start' });

it('[skip] the next rep is dropped, what follows and the end come sooner by its interval', () => {
  const deck = started('lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00').at(20, {
    do: 'skip',
    lanes: [2],
  });
  expect(deck.reps(2)).toEqual(['3.1 at 10', '3.3 at 80', '3.4 at 150', '4.1 at 220', '4.2 at 340']);
  expect(deck.settled(20).lanes[1]!.end).toBe((10 + 3 * 70 + 240) * 1000);
});

it('[skip] of a timed block: what follows comes sooner by the interval, not by what is left over', () => {
  const deck = started('4:30 of 50s @ 2:00\n50 @ 1:00');
  expect(deck.reps(1)).toEqual(['1.1 at 10', '1.2 at 130', '2.1 at 280']);
  expect(deck.at(20, { do: 'skip' }).reps(1)).toEqual(['1.1 at 10', '2.1 at 160']);
});
