/* Another session in the place of a run that is going: whenever the process is killed or the power fails, there is one of them. */

import { expect, test } from 'vitest';
import { readJournal } from '../../../app/host/journal/journal-text.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { goingDeck, JournalledDeck, settled, SQUAD } from '../../support/host/deck/journalled-deck.ts';

interface Cut {
  readonly disk: FakeDisk;
  /** The session was answered as open by then. */
  readonly isAnswered: boolean;
}

/** What stands on the disk before each change that opening another session makes, after a kill and after a power cut. */
async function cuts(deck: JournalledDeck): Promise<readonly Cut[]> {
  const found: Cut[] = [];
  let isAnswered = false;
  const take = (): void => {
    for (const left of [deck.disk.files, deck.disk.safe]) {
      const disk = new FakeDisk();
      left.forEach((bytes, path) => disk.put(path, bytes.slice()));
      found.push({ disk, isAnswered });
    }
  };
  deck.disk.beforeChange = take;
  await deck.open(SQUAD.replace('8 x 50', '9 x 50'));
  isAnswered = true;
  take();
  await settled();
  take();
  return found;
}

/** How each run's journal ends. */
function ends({ files }: FakeDisk): Record<string, string> {
  const journals = [...files].filter(([path]) => path.endsWith('.jsonl')).map(([, bytes]) => readJournal(bytes));
  return Object.fromEntries(
    journals.flatMap((journal) => {
      if (journal.kind !== 'journal') return [];
      const last = journal.entries[journal.entries.length - 1]!;
      return [[journal.opened.run, last.say === 'closed' ? last.why : 'open']];
    }),
  );
}

test('[journal] after a kill at any point of a replacement one of the two runs comes back, and the other is closed', async () => {
  const deck = await goingDeck();
  const all = await cuts(deck);
  expect(all.length).toBeGreaterThan(12);
  const came = new Set<string>();
  for (const { disk, isAnswered } of all) {
    const { recovery, deck: again } = await JournalledDeck.start(deck.clock, disk, 'boot-1', 'later');
    const run = recovery.found?.run ?? 'none';
    came.add(run);
    expect(run).toBe(isAnswered || Object.keys(ends(disk)).includes('run-2') ? 'run-2' : 'run-1');
    if (run === 'run-2' && 'run-1' in ends(disk)) expect(ends(disk)).toEqual({ 'run-1': 'replaced', 'run-2': 'open' });
    again.kill();
  }
  expect(came).toEqual(new Set(['run-1', 'run-2']));
});

test('[journal] the old run is closed when the new one is on the disk, and not before', async () => {
  const deck = await goingDeck();
  let release = (): void => undefined;
  deck.disk.held = new Promise((resolve) => (release = resolve));
  const opening = deck.open(SQUAD);
  await settled();
  await deck.pass(200);
  await opening;
  expect(ends(deck.disk)).toEqual({ 'run-1': 'open', 'run-2': 'open' });
  release();
  await settled();
  expect(ends(deck.disk)).toEqual({ 'run-1': 'replaced', 'run-2': 'open' });
});

test('[recovery] the newer of two runs is the one opened later, though the wall clock was set back in between', async () => {
  const deck = await goingDeck();
  deck.clock.setWall(18 * 3_600_000);
  const all = await cuts(deck);
  for (const { disk, isAnswered } of all.filter((cut) => cut.isAnswered)) {
    const { recovery, deck: again } = await JournalledDeck.start(deck.clock, disk, 'boot-1', 'later');
    expect([recovery.found?.run, isAnswered]).toEqual(['run-2', true]);
    again.kill();
  }
});
