// The next rep dropped, and nothing else moved.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

it('[sit-out] the next rep is dropped and nothing moves', () => {
  const deck = new Deck('lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00').at(0, { do: 'start' });
  deck.at(20, { do: 'sit-out', lanes: [2] });
  expect(deck.reps(2)).toEqual(['3.1 at 10', '3.3 at 150', '3.4 at 220', '4.1 at 290', '4.2 at 410']);
  expect(deck.settled(20).lanes[1]!.end).toBe((10 + 4 * 70 + 240) * 1000);
});
