// Stopped lanes that go back into their old times.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';

const started = (text = SETS): Deck => new Deck(text).at(0, { do: 'start' });

it('[rejoin] what is due within the lead is dropped and nothing moves', () => {
  const deck = started()
    .at(20, { do: 'stop', lanes: [1] })
    .at(120.001, { do: 'rejoin', lanes: [1] });
  expect(deck.leaves(1, 330)).toEqual([10, 190, 250]);
  const just = started()
    .at(20, { do: 'stop', lanes: [1] })
    .at(120, { do: 'rejoin', lanes: [1] });
  expect(just.leaves(1, 200)).toEqual([10, 130, 190]);
});

it('[rejoin] a lane that has missed everything is no longer stopped, and the others are as they were', () => {
  const deck = started('lane 1\nlane 2\n2/4 x 50 @ 1:00\nTwo\n50 @ 1:00').at(20, { do: 'stop' });
  deck.at(65, { do: 'rejoin', lanes: [1] });
  expect(deck.state.lanes.map(({ stoppedBy }) => stoppedBy)).toEqual([null, 1]);
  expect(deck.at(66, { do: 'rejoin' }).leaves(2)).toEqual([10, 130, 190]);
  expect(deck.leaves(1)).toEqual([10]);
});

it('[rejoin] in time before the first leave nothing is missed', () => {
  const deck = new Deck('start on 60\n2 x 50 @ 1:00').at(1, { do: 'start' }).at(2, { do: 'stop' });
  expect(deck.at(3, { do: 'rejoin' }).leaves(1)).toEqual([60, 120]);
});
