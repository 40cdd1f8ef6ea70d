/* Whose turn is next, said in seconds that a swimmer can leave on. */

import { expect, test } from 'vitest';
import { view } from '../../../../app/core/run/view.ts';
import { wallFace } from '../../../support/wall/wall-face.ts';
import { Deck } from '../../../support/run/deck.ts';

function turns(deck: Deck, seconds: number): readonly string[] {
  return wallFace(view(deck.state, seconds * 1000), 0, 'stretch').lanes.map(({ turn }) => turn);
}

test('[tails] a break that was begun between two seconds leaves the tails whole seconds, rounded up', () => {
  const deck = new Deck('lane 1, 3 swimmers\n4 x 50 @ 1:00\nbreak 0:30\n50 @ 1:00\n').at(0, { do: 'start' });
  deck.at(11.5, { do: 'move-on' });
  // The second goes at 15 s, when the clock shows 0:03.5; the third at 20 s.
  expect(turns(deck, 12)).toEqual(['2 at 0:04']);
  expect(turns(deck, 16)).toEqual(['3 at 0:09']);
});

test('[tails] what the session has in tenths keeps them', () => {
  const tenths = new Deck('lane 1, 3 swimmers\n4 x 50 @ 28.5\n').at(0, { do: 'start' });
  expect(turns(tenths, 39)).toEqual(['2 at 0:33.5']);
});
