/*
 * A bare HTTP server with the limits that every listener of the host has, on one address.
 */

import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import type { Duplex } from 'node:stream';
import { codeOf } from '../journal/disk.ts';
import type { Timers } from '../time/timers.ts';
import type { Arrivals } from './limits/arrivals.ts';
import type { Connections } from './limits/connections.ts';
import { pace } from './limits/paced-listener.ts';
import { sendRefusal } from './replies.ts';

/** The port of the pages unless another one is asked for. */
export const DEFAULT_PORT = 7525;

/** The port cannot be used; the message says which port, why, and what to do. */
export class PortTaken extends Error {}

/** In ms: how long a client may take for a request with its headers, and between two requests; 5 s with Node's check interval. */
const LIMITS = {
  headersTimeout: 4000,
  requestTimeout: 4000,
  keepAliveTimeout: 5000,
  connectionsCheckingInterval: 1000,
};

/** In ms: how long a request and its answer may take together. After that the host hangs up, even if the client has not read it. */
const ANSWERED_WITHIN = 30_000;

/**
 * What a client is told whose request could not be read, by Node's code. A browser that has just sent its request on a
 * connection that was silent for too long sends it again after a 408, and after nothing else.
 */
const CLIENT_FAULTS: Readonly<Record<string, string>> = {
  ERR_HTTP_REQUEST_TIMEOUT: '408 Request Timeout',
  HPE_HEADER_OVERFLOW: '431 Request Header Fields Too Large',
};

export interface HttpPorts {
  readonly timers: Timers;
  readonly connections: Connections;
  /** When connections may come in; without it all may, at once. */
  readonly arrivals?: Arrivals;
  /** Answers a request; rejects only for an error of the program. */
  answer(request: IncomingMessage, response: ServerResponse): Promise<void>;
  upgrade(request: IncomingMessage, stream: Duplex, head: Buffer): void;
}

export function httpServer({ timers, connections, arrivals, answer, upgrade }: HttpPorts): Server {
  const server = createServer({ ...LIMITS, maxHeaderSize: 8192 }, (request, response) => {
    connections.asks(request.socket, response);
    const late = timers.set(() => response.destroy(), ANSWERED_WITHIN);
    response.on('close', () => timers.clear(late));
    if (hasNeedlessBody(request)) response.setHeader('Connection', 'close');
    answer(request, response).catch((error: unknown) => {
      if (response.headersSent) response.destroy();
      else sendRefusal(response, 500, `Lanecall had an error (${String(error)}): try again.`);
    });
  });
  server.on('connection', (connection) => connections.came(connection));
  if (arrivals) pace(server, arrivals);
  server.on('upgrade', (request, stream, head) => {
    connections.gone(stream);
    upgrade(request, stream, head);
  });
  server.on('clientError', (error, stream) => {
    if (codeOf(error).startsWith('HPE_')) arrivals?.offended((stream as Socket).remoteAddress ?? '');
    const status = CLIENT_FAULTS[codeOf(error)] ?? '400 Bad Request';
    if (stream.writable) stream.end(`HTTP/1.1 ${status}\r\nConnection: close\r\n\r\n`, () => stream.destroy());
    else stream.destroy();
  });
  return server;
}

/** Node would read such a body to its end, for the next request on the connection. */
function hasNeedlessBody({ method, headers }: IncomingMessage): boolean {
  const hasBody = 'transfer-encoding' in headers || Number(headers['content-length'] ?? 0) > 0;
  return hasBody && (method === 'GET' || method === 'HEAD');
}

/** Rejects with `PortTaken`. */
export function listen(server: Server, port: number, address: string): Promise<Server> {
  return new Promise((resolve, reject) => {
    server.once('error', (error) => reject(withReason(error, port)));
    server.listen({ port, host: address, exclusive: true }, () => {
      // Accepting a connection can fail (no file handles left). That connection is lost; the host goes on.
      server.on('error', () => undefined);
      resolve(server);
    });
  });
}

/** In ms: how long the goodbyes to screens may take when a listener closes. */
const LAST_WORDS = 250;

/** Says goodbye and stops listening. Resolves when no connection is left. */
export async function closeServers(
  servers: readonly Server[],
  sockets: { close(why: string): void; terminate(): void },
  why: string,
  timers: Timers,
  lastWords = LAST_WORDS,
): Promise<void> {
  const closed = servers.map((server) => new Promise((resolve) => server.close(resolve)));
  sockets.close(why);
  const timer = timers.set(() => {
    sockets.terminate();
    servers.forEach((server) => server.closeAllConnections());
  }, lastWords);
  await Promise.all(closed);
  timers.clear(timer);
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
