/*
 * What other parts of the program have the host tell the coach.
 */

import { expect, test } from 'vitest';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

test('[host] the coach reads one sentence about each thing, for as long as it lasts', () => {
  const clock = new FakeClock();
  const host = new DeckHost({ clock, timers: clock.timers, journal: new JournalInMemory(), newId: () => 'run' });
  const notices = () => host.snapshot().notices;
  let changes = 0;
  host.onChange(() => changes++);
  host.tell('wall screen', 'It is gone.');
  host.tell('fault', 'Something is wrong.');
  host.tell('wall screen', 'It is in a window.');
  expect(notices()).toEqual(['It is in a window.', 'Something is wrong.']);
  expect(changes).toBe(3);
  host.tell('wall screen', 'It is in a window.');
  host.tell('closing', null);
  expect(changes).toBe(3);
  host.tell('wall screen', null);
  expect(notices()).toEqual(['Something is wrong.']);
});
