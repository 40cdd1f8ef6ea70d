// A word for the record.

import { expect, it } from 'vitest';
import { Deck } from '../../../support/run/deck.ts';

it('[mark] at any time, for the lanes named in lane order, its words may be left out', () => {
  const deck = new Deck('lane 1\nlane 2\nlane 3\n50 @ 1:00').at(1, { do: 'mark' });
  deck
    .at(2, { do: 'mark', lanes: [3, 1], words: 'cramp' })
    .at(3, { do: 'finish' })
    .at(4, { do: 'mark', words: 'over' });
  expect(deck.state.marks).toEqual([
    { at: 1000, lanes: [], words: '' },
    { at: 2000, lanes: [1, 3], words: 'cramp' },
    { at: 4000, lanes: [], words: 'over' },
  ]);
});

it('[mark] of a lane that is out or does not exist is refused', () => {
  const deck = new Deck('lane 1\nlane 2\n50 @ 1:00').at(0, { do: 'lane-out', lanes: [2] });
  expect(deck.refusal(1, { do: 'mark', lanes: [2] })).toBe('Lane 2 is out.');
  expect(deck.refusal(1, { do: 'mark', lanes: [3] })).toBe('There is no lane 3.');
});
