/*
 * A real host that shares on an address of this machine that tests hand in, with a served page of its own beside it.
 */

import { randomUUID } from 'node:crypto';
import { DeckHost } from '../../../../app/host/deck/deck-host.ts';
import { Library } from '../../../../app/host/library/library.ts';
import type { PrivateAddress } from '../../../../app/host/sharing/address/addresses.ts';
import { openDoorBook } from '../../../../app/host/sharing/door-book.ts';
import { keepSharing } from '../../../../app/host/sharing/address/kept-sharing.ts';
import { Squads } from '../../../../app/host/squads/squads.ts';
import { systemClock, type Clock } from '../../../../app/host/time/clock.ts';
import { systemTimers, type Timers } from '../../../../app/host/time/timers.ts';
import type { Pages } from '../../../../app/host/web/pages.ts';
import { startServer, type DeckServer } from '../../../../app/host/web/server.ts';
import { openSharing, type SharePorts, type Shared } from '../../../../app/host/web/share.ts';
import { FreeFolder } from '../../system/free-folder.ts';
import { FakeDisk } from '../folders/fake-disk.ts';
import { JournalInMemory } from '../folders/journal-in-memory.ts';
import { recordsOn } from '../folders/records-folder.ts';

/** Another address of every machine with Linux; it stands for one of a private network. */
export const ADDRESS = '127.0.0.2';

const HTML = { type: 'text/html; charset=utf-8', lasting: false } as const;
const PAGES: Pages = new Map(['/', '/display', '/remote'].map((path) => [path, { ...HTML, body: Buffer.from(path) }]));

export interface SharedDeckOptions {
  readonly clock?: Clock;
  readonly timers?: Timers;
  readonly disk?: FakeDisk;
  readonly found?: SharePorts['deck']['found'];
  /** Whether browsers of this machine find the coach's window, as they do not in the desktop program. */
  readonly isServed?: boolean;
}

export class SharedDeck {
  /** What the machine has; tests change it. */
  readonly addresses: PrivateAddress[] = [{ address: ADDRESS, name: 'wlan0' }];
  readonly host: DeckHost;
  readonly disk: FakeDisk;
  readonly server: DeckServer;
  readonly shared: Shared;

  private constructor(host: DeckHost, disk: FakeDisk, open: (deck: SharedDeck) => Shared) {
    this.host = host;
    this.disk = disk;
    this.shared = open(this);
    this.server = { port: 0, close: () => Promise.resolve() };
  }

  static async start({
    clock = systemClock(),
    timers = systemTimers,
    disk = new FakeDisk(),
    found = null,
    isServed = true,
  }: SharedDeckOptions = {}): Promise<SharedDeck> {
    const host = new DeckHost({ clock, timers, journal: new JournalInMemory(), newId: randomUUID });
    const library = new Library({ disk, folder: '/data', wall: () => clock.wall().epochMs });
    const guard = new FreeFolder();
    const kept = { disk, folder: '/data', guard };
    const records = recordsOn(disk);
    const squads = new Squads(kept);
    const tell = { devices: () => undefined, visitors: () => undefined };
    const doorBook = await openDoorBook({ ...kept, clock, timers, tell });
    const keptSharing = await keepSharing(kept);
    const deck = new SharedDeck(host, disk, (self) =>
      openSharing({
        deck: { host, library, records, squads, doorBook, keptSharing, found },
        clock,
        timers,
        pages: PAGES,
        ports: () => ({ network: self.server.port, pages: isServed ? self.server.port : null }),
        addresses: () => [...self.addresses],
      }),
    );
    const { sharing, company } = deck.shared;
    const ports = { host, clock, timers, pages: PAGES, library, records, squads, entrance: sharing, company };
    Object.assign(deck, { server: await startServer(ports, 0) });
    return deck;
  }

  /** Address and port, of the network. */
  get network(): string {
    return `${ADDRESS}:${this.server.port}`;
  }

  /** Of this machine. */
  get machine(): string {
    return `127.0.0.1:${this.server.port}`;
  }

  async close(): Promise<void> {
    await Promise.all([this.server.close('The test is over.'), this.shared.sharing.end('The test is over.')]);
  }
}
