/*
 * The host as a process of its own, as `serve` puts it together, but on a clock that its parent moves: so that
 * it can be killed in the middle of an hour that passes in a minute. Run with its data folder, its port and the
 * setting of its clock; tells its parent when it serves and, with each change, what screens are told.
 */

import { fileURLToPath } from 'node:url';
import { openDeck } from '../../../app/host/deck/deck-opening.ts';
import { startLoop } from '../../../app/host/time/loop.ts';
import { readPages } from '../../../app/host/web/pages.ts';
import { lifeSigns } from '../../../app/host/journal/life-signs.ts';
import { startServer } from '../../../app/host/web/server.ts';
import { openSharing } from '../../../app/host/web/share.ts';
import { systemTimers } from '../../../app/host/time/timers.ts';
import type { FromHost, Snapshot } from '../../../app/wire/messages.ts';
import { MovingClock, type ClockSetting } from '../clock/moving-clock.ts';
import { reachableAddress } from './reachable-address.ts';

export type ToParent =
  | { readonly say: 'serves'; readonly port: number }
  | {
      readonly say: 'told';
      readonly snapshot: Snapshot;
      readonly texts: readonly Extract<FromHost, { say: 'text' }>[];
    };

export interface FromParent {
  /** How far the clock is to have been moved in all, in ms. */
  readonly ahead: number;
}

/** The pages as `npm run build` makes them. */
const BUILT_PAGES = fileURLToPath(new URL('../../../dist/pages', import.meta.url));

const [data, port, setting] = process.argv.slice(2);
const clock = new MovingClock(undefined, JSON.parse(setting!) as ClockSetting);
const tell = (message: ToParent): void => void process.send!(message);

const opening = await openDeck(data!, clock, systemTimers);
if (!opening.ok) throw new Error(opening.why);
const { host, journal, library, squads, records } = opening.deck;
const loop = startLoop(clock, systemTimers, [lifeSigns(host, clock, journal)]);
clock.onJump(() => loop.wake());
host.onChange(() => {
  loop.wake();
  tell({ say: 'told', snapshot: host.snapshot(), texts: host.texts() });
});
process.on('message', ({ ahead }: FromParent) => clock.moveAhead(ahead));
// A parent that is gone needs no host.
process.on('disconnect', () => process.exit());

const timers = systemTimers;
const pages = readPages(BUILT_PAGES);
const ports = () => ({ network: server.port, pages: server.port });
const addresses = () => [{ address: reachableAddress(), name: 'pool' }];
const { sharing, company, takeUp } = openSharing({ deck: opening.deck, clock, timers, pages, ports, addresses });
const served = { host, clock, timers, pages, library, squads, records, entrance: sharing, company };
const server = await startServer(served, Number(port));
await takeUp();
tell({ say: 'told', snapshot: host.snapshot(), texts: host.texts() });
tell({ say: 'serves', port: server.port });
