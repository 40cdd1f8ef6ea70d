/* Runs to which nobody came back: from when on a run is one, and that a disk that refuses loses nothing of it. */

import { describe, expect, test } from 'vitest';
import { projectedEnd } from '../../../app/core/run/hour/projection.ts';
import { settle } from '../../../app/core/run/settle.ts';
import { readJournal } from '../../../app/host/journal/journal-text.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { goingDeck, JournalledDeck, restarted, settled } from '../../support/host/deck/journalled-deck.ts';

const MINUTE = 60_000;

/** A run that was left a day ago, and its journal as it was then. */
async function left() {
  const deck = await goingDeck();
  deck.kill();
  // The system closes what the killed one had open.
  deck.disk.openFiles = 0;
  deck.clock.stall(24 * 60 * MINUTE);
  return { deck, path: deck.path(), before: deck.disk.text(deck.path()) };
}

test('[recovery] a run is unattended from the first ms after half an hour past its projected end', async () => {
  const deck = await goingDeck();
  deck.kill();
  const seenAt = deck.now();
  const end = projectedEnd(settle(deck.host.current()!.state, seenAt), seenAt);
  const copy = new FakeDisk();
  deck.disk.files.forEach((bytes, path) => copy.put(path, bytes));
  deck.clock.stall(end + 30 * MINUTE - seenAt);
  const inTime = await JournalledDeck.start(deck.clock, copy);
  expect(inTime.recovery.found?.run).toBe('run-1');
  inTime.deck.kill();
  deck.clock.stall(1);
  expect((await restarted(deck)).recovery).toMatchObject({ found: null, unattended: { runs: { length: 1 } } });
});

describe('[recovery] the last line of a run that was left unattended', () => {
  test('says when it was closed, by the clocks of this start, and is on the disk before the file is closed', async () => {
    const { deck, path, before } = await left();
    await restarted(deck, 'boot-2');
    const text = deck.disk.text(path);
    expect(JSON.parse(text.slice(before.length))).toMatchObject({
      say: 'closed',
      why: 'unattended',
      at: deck.now(),
      boot: 'boot-2',
      mono: deck.clock.instant().monotonic,
    });
    expect(text.slice(before.length)).not.toContain('told');
    expect(deck.disk.safe.get(path)).toEqual(deck.disk.files.get(path));
    expect(deck.disk.openFiles).toBe(0);
  });

  test.each([
    ['cannot be written', (disk: FakeDisk) => (disk.room = 20)],
    ['cannot be made safe', (disk: FakeDisk) => (disk.unsyncable = 'EIO')],
    ['is refused altogether', (disk: FakeDisk) => (disk.refuses = 'EROFS')],
  ])('that %s leaves the journal as it was for the next start, and no file open', async (_, harm) => {
    const { deck, path, before } = await left();
    harm(deck.disk);
    await restarted(deck);
    expect(deck.disk.text(path)).toBe(before);
    expect(deck.disk.openFiles).toBe(0);
    Object.assign(deck.disk, { room: Infinity, unsyncable: null, refuses: null });
    expect((await restarted(deck)).recovery.unattended.runs).toHaveLength(1);
    expect(readJournal(deck.disk.files.get(path)!)).toMatchObject({ kind: 'journal', stop: null });
  });

  test('is not written after a torn end if only the cutting is refused', async () => {
    const { deck, path, before } = await left();
    deck.disk.put(path, Buffer.from(`${before}{"half`));
    deck.disk.replace = () => Promise.reject(new Error('no file beside it'));
    await restarted(deck);
    expect(deck.disk.text(path)).toBe(`${before}{"half`);
  });

  test('tells of the last leave of all lanes', async () => {
    const deck = await goingDeck();
    await deck.pass(180_000);
    deck.kill();
    deck.clock.stall(24 * 60 * MINUTE);
    expect((await restarted(deck)).recovery.unattended.runs[0]).toContain('2 commands, the last leave at 19:33.');
  });

  test('is not written after a torn end that cannot be cut off', async () => {
    const { deck, path, before } = await left();
    deck.disk.put(path, Buffer.from(`${before}{"half`));
    deck.disk.refuses = 'EROFS';
    await restarted(deck);
    deck.disk.refuses = null;
    expect(deck.disk.text(path)).toBe(`${before}{"half`);
  });
});

describe('[recovery] the line that the coach has read of it', () => {
  test.each([
    ['removed', (disk: FakeDisk, path: string) => disk.remove(path)],
    ['made unreadable', (disk: FakeDisk, path: string) => void disk.unreadable.set(path, 'EIO')],
    ['emptied', (disk: FakeDisk, path: string) => disk.put(path, new Uint8Array())],
    [
      'torn',
      (disk: FakeDisk, path: string) => disk.put(path, Buffer.concat([disk.files.get(path)!, Buffer.from('{"half')])),
    ],
  ])('is not written into a journal that was %s meanwhile', async (_, harm) => {
    const { deck, path } = await left();
    const { deck: again } = await restarted(deck);
    harm(deck.disk, path);
    const harmed = deck.disk.files.get(path);
    again.host.told();
    await settled();
    expect(deck.disk.files.get(path)).toEqual(harmed);
    expect(again.host.snapshot().startUp).toBeNull();
  });

  test('is written at the time of its last line, once', async () => {
    const { deck, path } = await left();
    const { deck: again } = await restarted(deck);
    const closed = deck.disk.text(path);
    deck.clock.stall(5 * MINUTE);
    again.host.told();
    again.host.told();
    await settled();
    const more = deck.disk.text(path).slice(closed.length);
    expect(JSON.parse(more)).toMatchObject({ say: 'closed', why: 'unattended', told: true });
    expect(more.split('\n')).toHaveLength(2);
    expect(readJournal(deck.disk.files.get(path)!)).toMatchObject({ kind: 'journal', stop: null });
    const last = closed.trimEnd().split('\n').at(-1)!;
    expect((JSON.parse(more) as { at: number }).at).toBe((JSON.parse(last) as { at: number }).at);
  });
});
