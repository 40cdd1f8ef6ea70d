// Stopped lanes that go on. What else a Resume lets go: see hold.test.ts.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

/** Lines 3 and 4 are the sets; started at 0, so T0 is 0:10. */
const SETS = 'lane 1\nlane 2\n4 x 50 free @ 1:00/1:10\n2 x 100 kick @ 2:00';

const started = (text = SETS): Deck => new Deck(text).at(0, { do: 'start' });

it('[resume] a stop ended the lead before the next leave costs nothing', () => {
  const deck = started().at(20, { do: 'stop' }).at(60, { do: 'resume' });
  expect(deck.leaves(1, 200)).toEqual([10, 70, 130, 190]);
  expect(deck.leaves(2, 200)).toEqual([10, 80, 150]);
});

it('[resume] a later one restarts on a round reading, the lanes of the stop keeping their places', () => {
  const deck = started().at(20, { do: 'stop' }).at(61, { do: 'resume' });
  // The earliest, lane 1 at 1:10, goes to 1:15; lane 2 moves by the same 5 s.
  expect(deck.leaves(1, 200)).toEqual([10, 75, 135, 195]);
  expect(deck.leaves(2, 200)).toEqual([10, 85, 155]);
  expect(deck.state.lanes.map((lane) => lane.displacement)).toEqual([5000, 5000]);
});

it('[resume] lanes stopped by different commands are placed each for itself', () => {
  const deck = started()
    .at(20, { do: 'stop', lanes: [1] })
    .at(21, { do: 'stop' });
  expect(deck.at(100, { do: 'resume' }).leaves(1, 170)).toEqual([10, 110, 170]);
  expect(deck.leaves(2, 170)).toEqual([10, 110]);
});

it('[resume] only the lanes named, placed by the earliest among them', () => {
  const deck = started()
    .at(20, { do: 'stop' })
    .at(75, { do: 'resume', lanes: [2] });
  expect(deck.leaves(2, 160)).toEqual([10, 85, 155]);
  expect(deck.leaves(1)).toEqual([10]);
});
