// The session over at once.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

const TEXT = 'One\n2 x 50 @ 1:00\nTwo\n50 @ 1:00';

it('[finish] done at once, also while waiting', () => {
  expect(new Deck(TEXT).at(7, { do: 'finish' }).state).toMatchObject({ phase: 'done', doneAt: 7000 });
});

it('[finish] going: what is pending is dropped; a start still counting down never was', () => {
  const deck = new Deck(TEXT).at(0, { do: 'start' }).at(20, { do: 'finish' });
  expect(deck.leaves(1)).toEqual([10]);
  expect(deck.view(30).clock.from).toBe(10_000);
  const counting = new Deck(TEXT).at(0, { do: 'start' }).at(150, { do: 'start' }).at(155, { do: 'finish' });
  expect(counting.view(156).clock.from).toBe(10_000);
});
