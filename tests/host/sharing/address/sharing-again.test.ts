/* Sharing after a crash: as it stood where a run comes back soon on the same address, and off at every other start. */

import { afterEach, describe, expect, test } from 'vitest';
import { keepSharing } from '../../../../app/host/sharing/address/kept-sharing.ts';
import { sharesAgain } from '../../../../app/host/sharing/address/sharing-again.ts';
import { FreeFolder } from '../../../support/system/free-folder.ts';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';
import { DoorSocket } from '../../../support/host/sharing/door-socket.ts';
import { ADDRESS, SharedDeck, type SharedDeckOptions } from '../../../support/host/deck/shared-deck.ts';

const HERE = [{ address: ADDRESS, name: 'wlan0' }];
const cutOff = (ms: number, isKnown = true) => ({
  position: { at: 1000 + ms, seenAt: 1000, by: 'wall', isKnown } as const,
});
const FOUND = cutOff(5000) as NonNullable<SharedDeckOptions['found']>;

describe('[sharing] is taken up', () => {
  test.each([
    ['within ten minutes on the same address', cutOff(599_999), ADDRESS, true],
    ['not later', cutOff(600_000), ADDRESS, false],
    ['not where nobody knows how long it was', cutOff(1, false), ADDRESS, false],
    ['not without a run', null, ADDRESS, false],
    ['not where it was off', cutOff(1), null, false],
    ['not on another address', cutOff(1), '192.168.1.21', false],
  ])('%s', (_, found, kept, expected) => {
    expect(sharesAgain(found, kept, HERE)).toBe(expected);
    expect(sharesAgain(found, kept, [{ address: '10.0.0.5', name: 'eth0' }, ...HERE])).toBe(expected);
  });
});

describe('[sharing] a start', () => {
  const open: SharedDeck[] = [];
  afterEach(async () => {
    for (const deck of open.splice(0)) await deck.close();
  });
  const start = async (options: SharedDeckOptions): Promise<SharedDeck> => {
    const deck = await SharedDeck.start(options);
    open.push(deck);
    await deck.shared.takeUp();
    return deck;
  };

  /** What stands on the disk of a host that was killed while it shared, and the key of its coach's page. */
  async function killed(): Promise<{ disk: FakeDisk; key: NonNullable<Awaited<ReturnType<DoorSocket['join']>>> }> {
    const deck = await start({});
    await deck.shared.sharing.share(null);
    const page = await DoorSocket.open({ host: deck.machine });
    const key = (await page.join(deck.shared.sharing.claim('while sharing')!.split('#')[1]!))!;
    await expect.poll(() => deck.disk.exists('/data/keys.json')).toBe(true);
    const disk = new FakeDisk();
    for (const name of ['keys.json', 'sharing.json'])
      await disk.replace(`/data/${name}`, await deck.disk.read(`/data/${name}`));
    return { disk, key };
  }

  test('after a kill in the middle of a run: shared as before, said, and keys are valid', async () => {
    const { disk, key } = await killed();
    const deck = await start({ disk, found: FOUND });
    expect(deck.shared.sharing.isOn()).toBe(true);
    expect(deck.host.snapshot().notices).toEqual([expect.stringMatching(/^Lanecall is shared again at http:/)]);
    const page = await DoorSocket.open({ host: deck.machine });
    expect(await page.comeBack(key)).toBe(true);
    await deck.shared.sharing.stop();
    expect(deck.host.snapshot().notices).toEqual([]);
  });

  test('what is said of it goes with the coach’s answer', async () => {
    const { disk } = await killed();
    const deck = await start({ disk, found: FOUND });
    expect(deck.host.snapshot().notices.length).toBe(1);
    deck.host.told();
    expect([deck.host.snapshot().notices, deck.shared.sharing.isOn()]).toEqual([[], true]);
  });

  test('without a run: off, nothing is said, and no key is valid', async () => {
    const { disk, key } = await killed();
    const deck = await start({ disk });
    expect([deck.shared.sharing.isOn(), deck.host.snapshot().notices]).toEqual([false, []]);
    const page = await DoorSocket.open({ host: deck.machine });
    expect(await page.comeBack(key)).toBe(false);
    expect(JSON.parse(Buffer.from(await disk.read('/data/sharing.json')).toString())).toEqual({
      version: 1,
      address: null,
    });
  });

  test('of a program that has never shared writes nothing; sharing does, and so does its end', async () => {
    const deck = await start({});
    const isThere = (): Promise<boolean> => deck.disk.exists('/data/sharing.json');
    expect(await isThere()).toBe(false);
    await deck.shared.sharing.share(null);
    const kept = async (): Promise<unknown> =>
      JSON.parse(Buffer.from(await deck.disk.read('/data/sharing.json')).toString());
    expect(await kept()).toEqual({ version: 1, address: ADDRESS });
    await deck.shared.sharing.stop();
    expect(await kept()).toEqual({ version: 1, address: null });
  });

  test('after the disk refused to write that it ended, it is written by the next', async () => {
    const { disk } = await killed();
    const kept = await keepSharing({ disk, folder: '/data', guard: new FreeFolder() });
    disk.refuses = 'ENOSPC';
    await kept.keep(null);
    disk.refuses = null;
    await kept.keep(null);
    expect((await keepSharing({ disk, folder: '/data', guard: new FreeFolder() })).address).toBeNull();
  });
});

describe('[sharing] what is kept of it', () => {
  const FILE = '/data/sharing.json';
  const keeping = (disk: FakeDisk) => keepSharing({ disk, folder: '/data', guard: new FreeFolder() });

  test('is written once, and again only where it changes', async () => {
    const disk = new FakeDisk();
    const kept = await keeping(disk);
    await kept.keep(null);
    expect(disk.files.has(FILE)).toBe(false);
    await kept.keep(ADDRESS);
    disk.files.delete(FILE);
    await kept.keep(ADDRESS);
    expect(disk.files.has(FILE)).toBe(false);
  });

  test.each(['nonsense', '{}', '{"version":1,"address":7}'])('is off where the file says %s', async (text) => {
    const disk = new FakeDisk();
    disk.put(FILE, Buffer.from(text));
    expect((await keeping(disk)).address).toBeNull();
  });

  test('by a newer program is left as it is', async () => {
    const disk = new FakeDisk();
    disk.put(FILE, Buffer.from('{"version":99,"address":"x"}'));
    const kept = await keeping(disk);
    await kept.keep(ADDRESS);
    expect([kept.address, disk.text(FILE)]).toEqual([null, '{"version":99,"address":"x"}']);
  });

  test('is written over where it cannot be read: nobody knows that it is off', async () => {
    const disk = new FakeDisk();
    disk.put(FILE, Buffer.from(JSON.stringify({ version: 1, address: ADDRESS })));
    disk.unreadable.set(FILE, 'EIO');
    const kept = await keeping(disk);
    await kept.keep(null);
    disk.unreadable.clear();
    expect((await keeping(disk)).address).toBeNull();
  });
});
