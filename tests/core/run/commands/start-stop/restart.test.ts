// Back to waiting, a stretch whole again.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

const PARTS = 'Test\nOne\n2 x 50 @ 1:00\nTwo\n2 x 50 @ 1:00\nbreak 0:30\n2 x 50 @ 1:00\nThree\n50 @ 1:00';

it('[restart] going: the stretch waits again, whole; waiting: the one before', () => {
  const deck = new Deck(PARTS).at(0, { do: 'start' }).at(80, { do: 'restart' });
  expect(deck.state).toMatchObject({ phase: 'waiting', index: 0 });
  expect(deck.refusal(90, { do: 'restart' })).toBe(
    'This is the first stretch: there is nothing before it to go back to.',
  );
  expect(deck.at(100, { do: 'start' }).leaves(1)).toEqual([10, 70, 110, 170]);
  expect(deck.at(300, { do: 'restart' }).at(310, { do: 'start' }).leaves(1, 330)).toEqual([10, 70, 110, 170, 320]);
});

it('[restart] not within three seconds of an end that came by itself', () => {
  const deck = new Deck(PARTS).at(0, { do: 'start' });
  expect(deck.refusal(132.999, { do: 'restart' })).toBe(
    'The stretch has just ended by itself: press again in a moment if you still mean it.',
  );
  expect(deck.at(133, { do: 'restart' }).state).toMatchObject({ phase: 'waiting', index: 0 });
});

it('[restart] during a countdown the clock goes on from the start before it', () => {
  const deck = new Deck(PARTS).at(0, { do: 'start' }).at(150, { do: 'start' });
  expect(deck.state.t0).toBe(160_000);
  expect(deck.at(155, { do: 'restart' }).view(156).clock.from).toBe(10_000);
  const begun = new Deck(PARTS).at(0, { do: 'start' }).at(150, { do: 'start' }).at(160, { do: 'restart' });
  expect(begun.view(162).clock.from).toBe(160_000);
});
