/*
 * Has a server's connections come in as `Arrivals` lets them. One that waits is the operating system's alone, nothing is
 * read of it, and Node has made no socket of it: that is most of what a connection costs.
 */

import type { Server, Socket } from 'node:net';
import type { Arrivals } from './arrivals.ts';

/** Node's own handle of a connection. */
interface Call {
  getpeername(into: { address?: string }): number;
  /** Ends it without the goodbyes of TCP, which would be kept for a minute; 0 if it could. */
  reset(): number;
  close(): void;
}

/** Node's own handle of a server that listens. */
interface Listener {
  onconnection: (this: Listener, error: number, call?: Call) => void;
}

/** Before the server listens. */
export function pace(server: Server, arrivals: Arrivals): void {
  server.once('listening', () => {
    const listener = listenerOf(server);
    if (listener) paceCalls(listener, arrivals);
    else paceSockets(server, arrivals);
  });
}

/** Node shows its handles to nobody, so a newer one may have none of this: null. */
function listenerOf(server: Server): Listener | null {
  const handle = Reflect.get(server, '_handle') as Partial<Listener> | null | undefined;
  return typeof handle?.onconnection === 'function' ? (handle as Listener) : null;
}

function paceCalls(listener: Listener, arrivals: Arrivals): void {
  const comesIn = listener.onconnection;
  listener.onconnection = (error, call) => {
    const peer: { address?: string } = {};
    if (!call) comesIn.call(listener, error);
    // Of one that is gone already there is no address.
    else if (call.getpeername(peer) !== 0) hangUp(call);
    else
      arrivals.arrive(
        peer.address ?? '',
        () => comesIn.call(listener, 0, call),
        () => hangUp(call),
      );
  };
}

function hangUp(call: Call): void {
  if (call.reset() !== 0) call.close();
}

/** The same with Node's sockets: nothing is read of one that waits, and nobody hears of it. */
function paceSockets(server: Server, arrivals: Arrivals): void {
  // For HTTP this is no option of `createServer`, as it is for sockets, but the server has the property.
  Object.assign(server, { pauseOnConnect: true });
  const listeners = server.listeners('connection');
  server.removeAllListeners('connection');
  server.on('connection', (socket: Socket) => {
    socket.on('error', () => undefined);
    arrivals.arrive(
      socket.remoteAddress ?? '',
      () => {
        for (const listener of listeners) listener.call(server, socket);
        socket.resume();
      },
      () => socket.resetAndDestroy(),
    );
  });
}
