/*
 * Puts sharing together: the switch, the doors, the listener on the network, and the company that screens have then.
 */

import type { Company } from '../deck/telling/company.ts';
import type { OpenDeck } from '../deck/deck-opening.ts';
import {
  AskPace,
  answerPut,
  questionsOf,
  TOO_MANY_QUESTIONS,
  withSessionFile,
  type Put,
} from '../deck/answers/questions.ts';
import { systemAddresses, type Addresses } from '../sharing/address/addresses.ts';
import { sharesAgain, sharingAgainText } from '../sharing/address/sharing-again.ts';
import type { Guest } from '../sharing/doors/guest.ts';
import { Sharing } from '../sharing/sharing.ts';
import type { Clock } from '../time/clock.ts';
import type { Timers } from '../time/timers.ts';
import type { SessionFile } from '../../wire/window-bridge.ts';
import { PortTaken } from './http-server.ts';
import { startNetworkServer } from './network-server.ts';
import type { Pages } from './pages.ts';

export interface SharePorts {
  readonly deck: Pick<OpenDeck, 'host' | 'library' | 'records' | 'squads' | 'doorBook' | 'keptSharing' | 'found'>;
  readonly clock: Clock;
  readonly timers: Timers;
  readonly pages: Pages;
  /** As in `SharingPorts`. */
  readonly ports: ConstructorParameters<typeof Sharing>[0]['ports'];
  /** A session file for the first coach's window that asks. */
  readonly file?: SessionFile | null;
  readonly addresses?: Addresses;
}

export interface Shared {
  readonly sharing: Sharing;
  readonly company: Company;
  /** Takes up what was cut off, if it is time to; otherwise it is off, whatever is kept. To be called once all listen. */
  takeUp(): Promise<void>;
}

export function openSharing({ deck, clock, timers, pages, ports, file = null, ...given }: SharePorts): Shared {
  const { addresses = systemAddresses } = given;
  const { host, doorBook: book, keptSharing: kept, found } = deck;
  const questions = withSessionFile(questionsOf(deck), file);
  // By device: one that hangs up and comes back may ask no more than before.
  const paces = new Map<Guest['device'], AskPace>();
  const paceOf = ({ device }: Guest): AskPace => {
    const pace = paces.get(device) ?? new AskPace(clock.now());
    paces.set(device, pace);
    return pace;
  };
  const company: Company = {
    async ask(put: Put, guest) {
      if (paceOf(guest).mayAsk(put.path, clock.now())) return answerPut(host, questions, put, guest);
      return { status: 429, body: JSON.stringify({ ok: false, why: TOO_MANY_QUESTIONS }) };
    },
    // It knows the company only once it is there itself.
    get sharing() {
      return sharing;
    },
  };
  const sharing: Sharing = new Sharing({
    clock,
    timers,
    book,
    addresses,
    ports,
    keep(address) {
      // What was said of it at the start is over with the first change.
      host.tell('sharing', null);
      return kept.keep(address);
    },
    note: (noted) => book.visitors.note(noted),
    async open(address) {
      const visited = (from: string): void => sharing.visited(from);
      const { network: port } = ports();
      try {
        return await startNetworkServer(
          { host, clock, timers, pages, company, entrance: sharing, visited },
          address,
          port,
        );
      } catch (error) {
        throw error instanceof PortTaken ? new Error(takenText(address, port)) : error;
      }
    },
  });
  return {
    sharing,
    company,
    async takeUp() {
      const again = sharesAgain(found, kept.address, addresses()) && (await sharing.share(kept.address)) === null;
      if (again) host.tell('sharing', sharingAgainText(sharing.address()!), 'news');
      else await Promise.all([book.end(), kept.keep(null)]);
    },
  };
}

function takenText(address: string, port: number): string {
  return (
    `Port ${port} of ${address} is in use, perhaps by another Lanecall that shares: end that one, or choose another ` +
    'port with --port N where this one is served, then share again.'
  );
}
