/* A disk that refuses one sync while lines are on their way: none of them is lost. */

import { expect, test } from 'vitest';
import { readLine } from '../../../../app/host/journal/journal-line.ts';
import { JournalledDeck, settled } from '../../../support/host/deck/journalled-deck.ts';

const TEXT = 'Harbour squad\nMain set\n4 x 50 free @ 0:40\n';

test('[journal] a command that waits behind a sign of life is written even if a sync fails meanwhile', async () => {
  const { deck } = await JournalledDeck.start();
  await deck.open(TEXT);
  await deck.host.command('start', { do: 'start' });
  const { disk, journal, clock } = deck;
  let syncNow = (): void => undefined;
  let writeNow = (): void => undefined;
  const mark = (id: string): void => {
    const fields = { do: 'mark', words: id };
    journal.append({ run: 'run-1', id, at: 0, fields, ...clock.instant() }).safe.catch(() => undefined);
  };
  disk.held = new Promise((resolve) => (syncNow = resolve));
  mark('one');
  await settled();
  disk.writesHeld = new Promise((resolve) => (writeNow = resolve));
  journal.alive({ run: 'run-1', at: 5, leaves: [], ...clock.instant() });
  await settled();
  mark('two');
  mark('three');
  await settled();
  disk.unsyncable = 'EIO';
  syncNow();
  await settled();
  disk.unsyncable = null;
  disk.held = Promise.resolve();
  writeNow();
  disk.writesHeld = Promise.resolve();
  await deck.pass(30_000);
  const lines = disk.text(deck.path()).split('\n').slice(0, -1);
  const ids = lines
    .map((line) => readLine(line)!.entry)
    .flatMap((entry) => (entry.say === 'command' ? [entry.id] : []));
  expect(ids).toEqual(['start', 'one', 'two', 'three']);
});
