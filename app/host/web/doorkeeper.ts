/*
 * Who is let in. The host listens on this machine alone, and even so any page in a browser could speak
 * to it: by a name of its own that leads here, or straight from elsewhere. So every request must have
 * asked for one of our own names, and whatever changes anything must come from our own pages.
 */

import type { IncomingMessage } from 'node:http';

/** The names this machine has for itself, as they stand in a Host header. */
const OWN_NAMES = ['localhost', '127.0.0.1', '[::1]'];

/** The Host header where it is one of our names with our port; null for none, a stranger's, or two of them. */
export function ownHost(request: IncomingMessage, port: number): string | null {
  const given = request.rawHeaders.filter((name, index) => index % 2 === 0 && name.toLowerCase() === 'host');
  const host = request.headers.host?.toLowerCase();
  if (given.length !== 1 || host === undefined) return null;
  const own = OWN_NAMES.some((name) => host === `${name}:${port}` || (port === 80 && host === name));
  return own ? host : null;
}

/** Whether the request was made by one of our own pages, loaded under the same name. */
export function isFromOwnPage(request: IncomingMessage, host: string): boolean {
  return request.headers.origin === `http://${host}`;
}
