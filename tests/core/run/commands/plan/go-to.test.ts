// To any rep of the session.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

it('[go-to] each lane starts with its first rep not before the one named, all at offset 0', () => {
  const deck = new Deck('lane 1\nlane 2\nOne\n6/3 x 50 @ 1:00\n2 x 100 @ 2:00').at(0, { do: 'start' });
  deck.at(20, { do: 'go-to', line: 4, rep: 5 });
  expect(deck.state).toMatchObject({ phase: 'waiting', index: 0 });
  deck.at(30, { do: 'start' });
  expect(deck.reps(1)).toEqual(['4.1 at 10', '4.5 at 40', '4.6 at 100', '5.1 at 160', '5.2 at 280']);
  expect(deck.reps(2)).toEqual(['4.1 at 10', '5.1 at 40', '5.2 at 160']);
  expect(deck.settled(Infinity).doneAt).toBe(400_000);
});

it('[go-to] a rep that no lane has is refused', () => {
  const deck = new Deck('lane 1\nlane 2\nOne\n6/3 x 50 @ 1:00');
  const none = 'Line 4 does not have that rep in the session as it stands: choose another rep.';
  expect(deck.refusal(35, { do: 'go-to', line: 4, rep: 7 })).toBe(none);
  expect(deck.refusal(35, { do: 'go-to', line: 4, rounds: [1], rep: 5 })).toBe(none);
});
