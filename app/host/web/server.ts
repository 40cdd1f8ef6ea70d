/*
 * Serves HTTP and the socket, on this machine's own addresses only.
 */

import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { codeOf } from '../journal/disk.ts';
import type { Clock } from '../time/clock.ts';
import { ALONE, type Company } from '../deck/telling/company.ts';
import type { DeckHost } from '../deck/deck-host.ts';
import { AskPace, questionsOf, withSessionFile, type Shelves } from '../deck/answers/questions.ts';
import type { Timers } from '../time/timers.ts';
import type { SessionFile } from '../../wire/window-bridge.ts';
import { Connections } from './limits/connections.ts';
import { isFromOwnPage, ownHost } from './doorkeeper.ts';
import { Doorstep } from './limits/doorstep.ts';
import { answerRequest } from './http-routes.ts';
import { closeServers, httpServer, listen } from './http-server.ts';
import type { Pages } from './pages.ts';
import { screenSockets, type Entrance } from './screen-sockets.ts';

export { PortTaken } from './http-server.ts';

export interface DeckServer {
  readonly port: number;
  /** Says goodbye to every screen with a reason and stops listening. Resolves when no connection is left. */
  close(why: string): Promise<void>;
}

export interface ServerPorts extends Shelves {
  readonly host: DeckHost;
  readonly clock: Clock;
  readonly timers: Timers;
  readonly pages: Pages;
  /** A session file for the editor of the first coach's window that asks. */
  readonly file?: SessionFile | null;
  /** How others come in; null where nothing can be shared. */
  readonly entrance?: Entrance | null;
  readonly company?: Company;
}

/** The addresses to listen on; IPv6 only if the machine has it. */
const IPV4 = '127.0.0.1';
const IPV6 = '::1';

/** How many sockets may be open that have not said hello. */
const MOST_UNGREETED = 32;

/** Listens on a port; 0 means any free one. Rejects with `PortTaken`. */
export async function startServer(
  { host, clock, timers, pages, file = null, entrance = null, company = ALONE, ...shelves }: ServerPorts,
  port: number,
): Promise<DeckServer> {
  let chosen = port;
  const sockets = screenSockets({
    host,
    clock,
    timers,
    company,
    entrance,
    listener: 'machine',
    doorstep: new Doorstep(MOST_UNGREETED),
    hostOf(request) {
      const name = ownHost(request, chosen);
      return name !== null && isFromOwnPage(request, name) ? name : null;
    },
  });
  const pace = new AskPace(clock.now());
  const questions = withSessionFile(questionsOf(shelves), file);
  const connections = new Connections();
  const makeServer = (): Server =>
    httpServer({
      timers,
      connections,
      answer: (request, response) =>
        answerRequest(
          {
            host,
            pages,
            questions,
            port: chosen,
            mayAsk: (path) => pace.mayAsk(path, clock.now()),
            needsKey: () => entrance?.isOn() ?? false,
          },
          request,
          response,
        ),
      upgrade: sockets.upgrade,
    });

  const first = await listen(makeServer(), port, IPV4);
  chosen = (first.address() as AddressInfo).port;
  const second = await listen(makeServer(), chosen, IPV6).catch((error: unknown) => {
    if (isMissingAddress(error)) return null;
    first.close();
    throw error;
  });
  const servers = second ? [first, second] : [first];
  return { port: chosen, close: (why) => closeServers(servers, sockets, why, timers) };
}

function isMissingAddress(error: unknown): boolean {
  return ['EADDRNOTAVAIL', 'EAFNOSUPPORT', 'EINVAL'].includes(codeOf(error));
}
