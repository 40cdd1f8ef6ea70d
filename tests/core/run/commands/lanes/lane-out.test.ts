// Lanes that go out.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';

it('[lane-out] its pending reps go, one lane stays in, and the stretch no longer waits for it', () => {
  const deck = new Deck(SETS).at(0, { do: 'start' }).at(20, { do: 'lane-out', lanes: [2] });
  expect(deck.leaves(2)).toEqual([10]);
  expect(deck.settled(Infinity).doneAt).toBe((10 + 4 * 60 + 240) * 1000);
  expect(deck.refusal(21, { do: 'lane-out', lanes: [1] })).toBe(
    'At least one lane must stay in: use Finish to end the session.',
  );
});

it('[lane-out] refused for a lane that is out already, or for all of them', () => {
  const deck = new Deck(SETS).at(0, { do: 'lane-out', lanes: [2] });
  expect(deck.refusal(1, { do: 'lane-out', lanes: [2] })).toBe('Lane 2 is out.');
  expect(new Deck(SETS).refusal(1, { do: 'lane-out', lanes: [1, 2] })).toMatch(/At least one lane/);
});
