/*
 * Where a page stands: on the host's own machine, or on another device of the network.
 */

import { hostAddress } from '../connection/own-window.ts';

/** The names that a machine has for itself. */
const OWN_NAMES = ['localhost', '127.0.0.1', '[::1]'];

/** Whether this page stands on another device than the host, as far as its address says. */
export function isOnNetwork(): boolean {
  return hostAddress() !== null && !OWN_NAMES.includes(location.hostname);
}
