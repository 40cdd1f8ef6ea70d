/*
 * The text of a run that is edited while it runs.
 */

import { expect, test } from 'vitest';
import { firstLineGiven, firstLineOpen, forgottenIn } from '../../../../app/core/run/view/editing.ts';
import { Deck } from '../../../support/run/deck.ts';

const LINES = ['Main', '2 x 50 @ 1:00', '4 x 100 @ 2:00', 'Down', '200 easy'];

test('[rewrite] the first line that has not begun; for a text given now, what leaves in the next 250 ms has', () => {
  const deck = new Deck(LINES.join('\n')).at(0, { do: 'start' });
  const open = (seconds: number) => [firstLineOpen(deck.view(seconds)), firstLineGiven(deck.view(seconds))];
  // Line 3 leaves first at 2:10.
  expect(open(129.7)).toEqual([3, 3]);
  expect(open(129.8)).toEqual([3, 4]);
  expect(open(130)).toEqual([4, 4]);
});

test('[rewrite] what it made the run forget, by lines of the old text', () => {
  const deck = new Deck(LINES.join('\n')).at(0, { do: 'cut', line: 3, n: 1 }).at(1, { do: 'start' });
  deck.at(20, { do: 'interval', lanes: [1], seconds: 5 });
  const before = deck.view(30);
  const after = deck.at(30, { do: 'rewrite', text: [...LINES.slice(0, 2), '50 @ 1:00'].join('\n') }).view(30);
  expect(forgottenIn(before, after)).toEqual({ cuts: [3], intervals: [] });
  const restored = new Deck(LINES.join('\n')).view(0);
  expect(forgottenIn(before, restored)).toEqual({ cuts: [3], intervals: [2] });
});
