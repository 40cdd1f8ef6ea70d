// What a command leaves behind in the state.

import { expect, test } from 'vitest';
import { withoutOldUndos } from '../../../app/core/run/commands/undo.ts';
import { Deck } from '../../support/run/deck.ts';

const kept = (deck: Deck) => deck.state.undoable.map(({ command }) => command.do);

test('[undo] only what may still be undone is kept, each with a state that keeps none', () => {
  const deck = new Deck('4 x 50 @ 1:00').at(0, { do: 'start' }).at(10, { do: 'gap', seconds: 6 });
  expect(kept(deck)).toEqual(['start', 'gap']);
  expect(kept(deck.at(10.001, { do: 'swimmers', n: 2 }))).toEqual(['gap', 'swimmers']);
  expect(deck.state.undoable.map(({ before }) => before.undoable)).toEqual([[], []]);
  expect(kept(deck.at(60, { do: 'mark' }))).toEqual(['gap', 'swimmers']);
});

test('[undo] what time alone has made too old goes too; where nothing has, the state is the same one', () => {
  const deck = new Deck('4 x 50 @ 1:00').at(0, { do: 'start' }).at(5, { do: 'gap', seconds: 6 });
  expect(withoutOldUndos(deck.state, 10_000)).toBe(deck.state);
  const later = withoutOldUndos(deck.state, 10_001);
  expect(later).toEqual({ ...deck.state, undoable: deck.state.undoable.slice(1) });
  expect(withoutOldUndos(later, 15_001).undoable).toEqual([]);
});
