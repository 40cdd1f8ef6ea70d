/* The first look at many journals: what each is, in their order, a few at a time. */

import { expect, test } from 'vitest';
import { lookAt } from '../../../app/host/journal/journal-look.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { goingDeck } from '../../support/host/deck/journalled-deck.ts';
import { journalLines } from '../../support/host/folders/written-journal.ts';

/** A disk that notes how many ends of files are read at the same time, and is slowest with the first. */
class BusyDisk extends FakeDisk {
  most = 0;
  private reading = 0;

  override async readEnd(path: string, bytes: number): Promise<Uint8Array> {
    this.most = Math.max(this.most, ++this.reading);
    for (let turn = 100 - Number(/\d+/.exec(path)![0]); turn > 0; turn--) await Promise.resolve();
    this.reading--;
    return super.readEnd(path, bytes);
  }
}

test('[recovery] journals are reported in the order of their paths, and sixteen are read at a time', async () => {
  const disk = new BusyDisk();
  const paths = Array.from({ length: 50 }, (_, index) => `${index}.jsonl`);
  for (const path of paths) disk.put(path, new Uint8Array([7]));
  expect(await lookAt(disk, paths)).toEqual(paths.map((path) => ({ kind: 'nothing', path })));
  expect(disk.most).toBe(16);
});

test('[recovery] of a closed journal only the end is read; any other is read whole', async () => {
  const deck = await goingDeck();
  const path = deck.path();
  const look = async () => {
    deck.disk.bytesRead = 0;
    const [found] = await lookAt(deck.disk, [path]);
    return { kind: found!.kind, read: deck.disk.bytesRead };
  };
  const { length } = deck.disk.files.get(path)!;
  expect(length).toBeGreaterThan(2048);
  expect(await look()).toEqual({ kind: 'unfinished', read: length + 1024 });
  await deck.journal.close({ run: 'run-1', at: 61_000, why: 'left', ...deck.clock.instant() });
  expect(await look()).toEqual({ kind: 'closed', read: 1024 });
});

test('[recovery] a journal of a newer program is reported with its version, one that cannot be read with the reason', async () => {
  const disk = new FakeDisk();
  disk.put('newer.jsonl', Buffer.from(journalLines({ run: 'r', text: '', journal: 3 }, []).join('')));
  disk.put('locked.jsonl', new Uint8Array([7]));
  disk.unreadable.set('locked.jsonl', 'EACCES');
  expect(await lookAt(disk, ['newer.jsonl', 'locked.jsonl'])).toEqual([
    { kind: 'newer', path: 'newer.jsonl', version: 3 },
    { kind: 'unreadable', sentence: expect.stringContaining('locked.jsonl cannot be read (') },
  ]);
});
