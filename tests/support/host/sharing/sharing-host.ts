/*
 * The host as `serve` puts it together, in this process, sharing on an address of this machine that other machines could
 * reach: to a browser its pages there are on another device, and no secure context.
 */

import { fileURLToPath } from 'node:url';
import { openDeck } from '../../../../app/host/deck/deck-opening.ts';
import { systemClock } from '../../../../app/host/time/clock.ts';
import { systemTimers } from '../../../../app/host/time/timers.ts';
import { readPages } from '../../../../app/host/web/pages.ts';
import { startServer } from '../../../../app/host/web/server.ts';
import { openSharing } from '../../../../app/host/web/share.ts';
import { freshDataFolder } from '../folders/data-folder.ts';
import { reachableAddress } from '../reachable-address.ts';

const PAGES = fileURLToPath(new URL('../../../../dist/pages', import.meta.url));

export interface SharingHost {
  /** Of the coach's page of this machine. */
  readonly origin: string;
  /** The address on which it may share. */
  readonly network: string;
  /** `why`: what screens are told. */
  end(why?: string): Promise<void>;
}

export async function sharingHost(text: string): Promise<SharingHost> {
  const [clock, timers] = [systemClock(), systemTimers];
  const opening = await openDeck(freshDataFolder(), clock, timers);
  if (!opening.ok) throw new Error(opening.why);
  const { deck } = opening;
  const pages = readPages(PAGES);
  const network = reachableAddress();
  const ports = () => ({ network: server.port, pages: server.port });
  const addresses = () => [{ address: network, name: 'pool' }];
  const { sharing, company, takeUp } = openSharing({ deck, clock, timers, pages, ports, addresses });
  const sharedWith = { entrance: sharing, company };
  const server = await startServer({ ...deck, clock, timers, pages, file: null, ...sharedWith }, 0);
  await deck.host.open({ text, lanesText: null }, { replace: false });
  await takeUp();
  return {
    origin: `http://127.0.0.1:${server.port}`,
    network,
    async end(why = 'The test is over.') {
      await Promise.all([server.close(why), sharing.end(why)]);
      await deck.close();
    },
  };
}
