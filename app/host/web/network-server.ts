/*
 * Serves the pages and the sockets to one private network, under the address of this machine there and no other. The
 * pages are public files; all power lies in the sockets.
 */

import type { IncomingMessage, ServerResponse } from 'node:http';
import { JOINING_PAGES } from '../../wire/sharing/joining.ts';
import type { Company } from '../deck/telling/company.ts';
import type { DeckHost } from '../deck/deck-host.ts';
import type { Clock } from '../time/clock.ts';
import type { Timers } from '../time/timers.ts';
import { Arrivals } from './limits/arrivals.ts';
import { Connections } from './limits/connections.ts';
import { hasOneHost, hasOneOrigin } from './doorkeeper.ts';
import { Doorstep } from './limits/doorstep.ts';
import { closeServers, httpServer, listen } from './http-server.ts';
import type { Page, Pages } from './pages.ts';
import { FRAMING, sendJson, sendPage, sendRefusal, type Framing } from './replies.ts';
import { screenSockets, type Entrance } from './screen-sockets.ts';

export interface NetworkServer {
  /** Says goodbye to every screen with a reason and stops listening. Resolves when no connection is left. */
  close(why: string): Promise<void>;
}

export interface NetworkPorts {
  readonly host: DeckHost;
  readonly clock: Clock;
  readonly timers: Timers;
  readonly pages: Pages;
  readonly entrance: Entrance;
  readonly company: Company;
  /** Somebody has connected, from this address. */
  readonly visited: (from: string) => void;
}

/** Sockets of which it is not known yet who they are: of all addresses, and of one. */
const MOST_UNPROVEN = 96;
const MOST_UNPROVEN_OF_ONE = 8;

/** Connections of one address that are no sockets, of each kind: a browser opens six. */
const MOST_CONNECTIONS_OF_ONE = 32;

/** In ms: how long the goodbyes may take. */
const LAST_WORDS = 80;

/** Rejects with `PortTaken`, or the system's reason. */
export async function startNetworkServer(
  { host, clock, timers, pages, entrance, company, visited }: NetworkPorts,
  address: string,
  port: number,
): Promise<NetworkServer> {
  const name = `${address}:${port}`;
  const shown = networkPages(pages);
  const arrivals = new Arrivals(clock, timers);
  const sockets = screenSockets({
    host,
    clock,
    timers,
    company,
    entrance,
    listener: 'network',
    doorstep: new Doorstep(MOST_UNPROVEN, MOST_UNPROVEN_OF_ONE),
    offended: (from) => arrivals.offended(from),
    hostOf: (request) => (hasOneHost(request, name) && hasOneOrigin(request, `http://${name}`) ? name : null),
  });
  const server = httpServer({
    timers,
    connections: new Connections(MOST_CONNECTIONS_OF_ONE),
    arrivals,
    answer: (request, response) => Promise.resolve(answer(shown, name, request, response)),
    upgrade: sockets.upgrade,
  });
  server.on('connection', ({ remoteAddress = '' }) => visited(remoteAddress));
  await listen(server, port, address);
  return {
    close(why) {
      arrivals.close();
      return closeServers([server], sockets, why, timers, LAST_WORDS);
    },
  };
}

/** The wall's page under the bare address, where televisions open it, and the coach's where tablets do. */
function networkPages(pages: Pages): ReadonlyMap<string, { readonly page: Page; readonly framing?: Framing }> {
  const shown = new Map(
    Array.from(pages, ([path, page]) => [path, { page, ...(FRAMING[path] ? { framing: FRAMING[path] } : {}) }]),
  );
  const [desk, wall] = [shown.get('/'), shown.get('/display')];
  shown.delete('/');
  if (wall) shown.set('/', { page: wall.page });
  if (desk) shown.set(JOINING_PAGES.tablet, desk);
  return shown;
}

function answer(
  shown: ReturnType<typeof networkPages>,
  name: string,
  request: IncomingMessage,
  response: ServerResponse,
): void {
  if (!hasOneHost(request, name)) return sendRefusal(response, 403, `Use the address http://${name}/.`);
  const { method, url } = request;
  if (method !== 'GET' && method !== 'HEAD') {
    const why = 'Nothing can be changed from here.';
    return sendJson(response, 405, { ok: false, why }, { Allow: 'GET, HEAD', Connection: 'close' });
  }
  // Every request that a server gets has an address.
  const path = url!.split('?')[0]!;
  if (path === '/healthz') return sendJson(response, 200, { ok: true });
  const found = shown.get(path);
  if (!found) return sendRefusal(response, 404, 'There is no such page.');
  sendPage(response, found.page, name, found.framing);
}
