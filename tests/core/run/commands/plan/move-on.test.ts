// The stretch given up, and what then waits or goes on.

import { expect, it } from 'vitest';
import { Deck } from '../../../../support/run/deck.ts';

const PARTS = 'Test\nOne\n2 x 50 @ 1:00\nTwo\n2 x 50 @ 1:00\nbreak 0:30\n2 x 50 @ 1:00\nThree\n50 @ 1:00';

it('[move-on] going: what is pending is dropped and the next waits; a break after a swim goes on at once', () => {
  const deck = new Deck(PARTS).at(0, { do: 'start' }).at(20, { do: 'move-on' });
  expect(deck.state).toMatchObject({ phase: 'waiting', index: 1 });
  deck.at(30, { do: 'start' }).at(50, { do: 'move-on' });
  expect(deck.state).toMatchObject({ phase: 'going', index: 2, t0: 50_000 });
  // The break ends at 1:20: the swim after it begins by itself.
  expect(deck.leaves(1)).toEqual([10, 40, 80, 140]);
});

it('[move-on] a break goes on at once only in its own part, and not after a talk or an untimed set', () => {
  const movedOn = (text: string) => new Deck(text).at(0, { do: 'start' }).at(20, { do: 'move-on' }).state;
  expect(movedOn('between auto 0:00\nOne\n2 x 50 @ 1:00\nTwo\nbreak 1:00\n50 @ 1:00')).toMatchObject({
    phase: 'waiting',
    index: 1,
  });
  expect(movedOn('One\ntalk 1:00\nbreak 1:00\n50 @ 1:00')).toMatchObject({ phase: 'waiting', index: 1 });
  expect(movedOn('One\n100 easy\nbreak 1:00\n50 @ 1:00')).toMatchObject({ phase: 'waiting', index: 1 });
  expect(movedOn('One\n2 x 50 @ 1:00\nbreak 1:00\n50 @ 1:00')).toMatchObject({ phase: 'going', index: 1 });
});

it('[move-on] waiting: the stretch is passed over; past the last the session is done', () => {
  const deck = new Deck(PARTS)
    .at(0, { do: 'move-on' })
    .at(1, { do: 'move-on' })
    .at(2, { do: 'move-on' })
    .at(3, { do: 'move-on' });
  expect(deck.state).toMatchObject({ phase: 'waiting', index: 4 });
  expect(deck.at(4, { do: 'move-on' }).state).toMatchObject({ phase: 'done', index: 4, doneAt: 4000 });
  expect(deck.refusal(5, { do: 'start' })).toBe('The session is done.');
});

it('[move-on] not within three seconds of an end that came by itself', () => {
  const deck = new Deck(PARTS).at(0, { do: 'start' });
  expect(deck.refusal(132.999, { do: 'move-on' })).toBe(
    'The stretch has just ended by itself: press again in a moment if you still mean it.',
  );
  expect(deck.at(133, { do: 'move-on' }).state.index).toBe(2);
});
