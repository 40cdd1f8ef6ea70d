// What a command leaves behind in the state.

import { expect, test } from 'vitest';
import { Deck } from '../../support/deck.ts';

const kept = (deck: Deck) => deck.state.undoable.map(({ command }) => command.do);

test('[undo] only what may still be undone is kept, each with a state that keeps none', () => {
  const deck = new Deck('4 x 50 @ 1:00').at(0, { do: 'start' }).at(10, { do: 'gap', seconds: 6 });
  expect(kept(deck)).toEqual(['start', 'gap']);
  expect(kept(deck.at(10.001, { do: 'swimmers', n: 2 }))).toEqual(['gap', 'swimmers']);
  expect(deck.state.undoable.map(({ before }) => before.undoable)).toEqual([[], []]);
  expect(kept(deck.at(60, { do: 'mark' }))).toEqual(['gap', 'swimmers']);
});
