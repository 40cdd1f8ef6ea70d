/*
 * Serves HTTP and the socket, on this machine's own addresses only.
 */

import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Clock } from '../time/clock.ts';
import { Connections } from './connections.ts';
import { QUESTIONS } from '../deck/coach-requests.ts';
import { deckSocket } from './deck-socket.ts';
import type { DeckHost } from '../deck/deck-host.ts';
import type { Library } from '../library/library.ts';
import { LIBRARY_PATH, libraryQuestion } from '../library/library-requests.ts';
import type { Records } from '../records/records.ts';
import { RECORDS_PATH, recordsQuestion } from '../records/records-requests.ts';
import type { Squads } from '../squads/squads.ts';
import { SQUADS_PATH, squadsQuestion } from '../squads/squads-requests.ts';
import type { Pages } from './pages.ts';
import { codeOf } from '../journal/disk.ts';
import { sendRefusal } from './replies.ts';
import { answerRequest } from './http-routes.ts';
import type { Timers } from '../time/timers.ts';
import { TokenBucket } from './token-bucket.ts';
import type { SessionFile } from '../../wire/window-bridge.ts';

export interface DeckServer {
  readonly port: number;
  /** Says goodbye to every screen with a reason and stops listening. Resolves when no connection is left. */
  close(why: string): Promise<void>;
}

export interface ServerPorts {
  readonly host: DeckHost;
  readonly clock: Clock;
  readonly timers: Timers;
  readonly pages: Pages;
  readonly library: Library;
  readonly records: Records;
  readonly squads: Squads;
  /** A session file for the editor of the first coach's window that asks. */
  readonly file?: SessionFile | null;
}

/** The port cannot be used; the message says which port, why, and what to do. */
export class PortTaken extends Error {}

/** The addresses to listen on; IPv6 only if the machine has it. */
const IPV4 = '127.0.0.1';
const IPV6 = '::1';

/** In ms: how long a client may take for a request with its headers, and between two requests; 5 s with Node's check interval. */
const LIMITS = {
  headersTimeout: 4000,
  requestTimeout: 4000,
  keepAliveTimeout: 5000,
  connectionsCheckingInterval: 1000,
};

/** In ms: how long a request and its answer may take together. After that the host hangs up, even if the client has not read it. */
const ANSWERED_WITHIN = 30_000;

/** How many requests all pages together may make: a large session takes time that the leaves of a run need. */
const SESSION_RATE = { perSecond: 2, burst: 20 };
const OTHER_RATE = { perSecond: 20, burst: 40 };

/**
 * What a client is told whose request could not be read, by Node's code. A browser that has just sent its request on a
 * connection that was silent for too long sends it again after a 408, and after nothing else.
 */
const CLIENT_FAULTS: Readonly<Record<string, string>> = {
  ERR_HTTP_REQUEST_TIMEOUT: '408 Request Timeout',
  HPE_HEADER_OVERFLOW: '431 Request Header Fields Too Large',
};

/** In ms: how long the goodbyes to screens may take when the host closes. */
const LAST_WORDS = 250;

/** Listens on a port; 0 means any free one. Rejects with `PortTaken`. */
export async function startServer(
  { host, clock, timers, pages, library, squads, records, file = null }: ServerPorts,
  port: number,
): Promise<DeckServer> {
  const socket = deckSocket(host, clock, timers);
  const others = new TokenBucket(OTHER_RATE, clock.now());
  // Whoever types, or looks for a session or a run, keeps no command waiting.
  const ofLibrary = new TokenBucket(OTHER_RATE, clock.now());
  const apart = new Map([
    ['/session', new TokenBucket(SESSION_RATE, clock.now())],
    [LIBRARY_PATH, ofLibrary],
    [SQUADS_PATH, ofLibrary],
    [RECORDS_PATH, ofLibrary],
  ]);
  const mayAsk = (path: string): boolean => (apart.get(path) ?? others).take(clock.now());
  const questions = new Map([
    ...QUESTIONS,
    [LIBRARY_PATH, libraryQuestion(library)],
    [RECORDS_PATH, recordsQuestion(records)],
    [SQUADS_PATH, squadsQuestion(squads)],
  ]);
  const connections = new Connections();
  let waiting = file;
  const takeFile = (): SessionFile | null => {
    const taken = waiting;
    waiting = null;
    return taken;
  };
  let chosen = port;
  const makeServer = (): Server => {
    const server = createServer({ ...LIMITS, maxHeaderSize: 8192 }, (request, response) => {
      connections.asks(request.socket, response);
      const late = timers.set(() => response.destroy(), ANSWERED_WITHIN);
      response.on('close', () => timers.clear(late));
      answerRequest({ host, pages, questions, port: chosen, mayAsk, takeFile }, request, response).catch(
        (error: unknown) => {
          if (response.headersSent) response.destroy();
          else sendRefusal(response, 500, `Lanecall had an error (${String(error)}): try again.`);
        },
      );
    });
    server.on('connection', (connection) => connections.came(connection));
    server.on('upgrade', (request, stream, head) => {
      connections.gone(stream);
      socket.upgrade(request, stream, head, chosen);
    });
    server.on('clientError', (error, stream) => {
      const status = CLIENT_FAULTS[codeOf(error)] ?? '400 Bad Request';
      if (stream.writable) stream.end(`HTTP/1.1 ${status}\r\nConnection: close\r\n\r\n`, () => stream.destroy());
      else stream.destroy();
    });
    return server;
  };

  const first = await listen(makeServer(), port, IPV4);
  chosen = (first.address() as AddressInfo).port;
  const second = await listen(makeServer(), chosen, IPV6).catch((error: unknown) => {
    if (isMissingAddress(error)) return null;
    first.close();
    throw error;
  });
  const servers = second ? [first, second] : [first];
  return {
    port: chosen,
    async close(why) {
      const closed = servers.map((server) => new Promise((resolve) => server.close(resolve)));
      socket.close(why);
      const timer = timers.set(() => {
        socket.terminate();
        servers.forEach((server) => server.closeAllConnections());
      }, LAST_WORDS);
      await Promise.all(closed);
      timers.clear(timer);
    },
  };
}

function listen(server: Server, port: number, address: string): Promise<Server> {
  return new Promise((resolve, reject) => {
    server.once('error', (error) => reject(withReason(error, port)));
    server.listen({ port, host: address, exclusive: true }, () => {
      // Accepting a connection can fail (no file handles left). That connection is lost; the host goes on.
      server.on('error', () => undefined);
      resolve(server);
    });
  });
}

function withReason(error: Error, port: number): Error {
  const code = codeOf(error);
  if (code === 'EADDRINUSE') {
    return new PortTaken(`Port ${port} is in use, perhaps by another Lanecall: choose another port with --port N.`);
  }
  if (code === 'EACCES') {
    return new PortTaken(`This user may not use port ${port}: choose one from 1024 up with --port N.`);
  }
  return error;
}

function isMissingAddress(error: unknown): boolean {
  return ['EADDRNOTAVAIL', 'EAFNOSUPPORT', 'EINVAL'].includes(codeOf(error));
}
