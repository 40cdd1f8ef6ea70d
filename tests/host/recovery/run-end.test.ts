/* From when on a run is over and nothing of it can be undone. */

import { expect, test } from 'vitest';
import { UNDO_FOR } from '../../../app/core/run/align.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { isOverForGood } from '../../../app/host/recovery/run-end.ts';
import { Deck } from '../../support/run/deck.ts';

const TEXT = 'lane 1\n\nMain\n2 x 50 @ 1:00\n';

test('[journal] a run is over for good one ms after the last moment at which its end can be undone', () => {
  const { state } = new Deck(TEXT).at(0, { do: 'start' });
  const { phase, doneAt } = settle(state, 3_600_000);
  expect(phase).toBe('done');
  expect(isOverForGood(state, doneAt! - 1)).toBe(false);
  expect(isOverForGood(state, doneAt! + UNDO_FOR)).toBe(false);
  expect(isOverForGood(state, doneAt! + UNDO_FOR + 1)).toBe(true);
});

test('[journal] a run that waits for the coach is never over', () => {
  expect(isOverForGood(new Deck(TEXT).state, Number.MAX_SAFE_INTEGER)).toBe(false);
});
