/*
 * Decides who is let in. The host's own listener is on this machine only, but any page in a browser here could still call it:
 * directly, or by a host name of its own that points to this machine. So every request must ask for one of our own
 * names, and a request that changes anything must come from our own pages.
 */

import type { IncomingMessage } from 'node:http';

/** The names that this machine has for itself in a Host header. */
const OWN_NAMES = ['localhost', '127.0.0.1', '[::1]'];

/** The Host header if it is one of our names with our port; null if it is another name, missing, or there twice. */
export function ownHost(request: IncomingMessage, port: number): string | null {
  const host = request.headers.host?.toLowerCase();
  if (timesGiven(request, 'host') !== 1 || host === undefined) return null;
  const own = OWN_NAMES.some((name) => host === `${name}:${port}` || (port === 80 && host === name));
  return own ? host : null;
}

/** Whether the request came from one of our own pages, loaded under the same name. */
export function isFromOwnPage(request: IncomingMessage, host: string): boolean {
  return request.headers.origin === `http://${host}`;
}

/** Whether a request from the network asks for exactly this name, once. */
export function hasOneHost(request: IncomingMessage, name: string): boolean {
  return timesGiven(request, 'host') === 1 && request.headers.host === name;
}

/** Whether it says once that it comes from exactly this origin. */
export function hasOneOrigin(request: IncomingMessage, origin: string): boolean {
  return timesGiven(request, 'origin') === 1 && request.headers.origin === origin;
}

function timesGiven({ rawHeaders }: IncomingMessage, header: string): number {
  return rawHeaders.filter((name, index) => index % 2 === 0 && name.toLowerCase() === header).length;
}
