/*
 * The address under which a test shares.
 */

import { networkInterfaces } from 'node:os';

/** One that is not this machine's alone, so that to a browser pages there are no secure context; without any network, one that is. */
export function reachableAddress(): string {
  const all = Object.values(networkInterfaces()).flatMap((each) => each ?? []);
  return all.find(({ family, internal }) => family === 'IPv4' && !internal)?.address ?? '127.0.0.2';
}
