/*
 * A port for a host that goes and comes back: free now, and not one that the system gives to whoever asks for
 * any, so that nobody takes it meanwhile.
 */

import { once } from 'node:events';
import { createServer } from 'node:net';

/** Below what systems give away by themselves (32 768 and up, 49 152 and up), above what needs a right. */
const LEAST = 20_000;
const MOST = 32_000;

export async function freePort(): Promise<number> {
  for (;;) {
    const port = LEAST + Math.floor(Math.random() * (MOST - LEAST));
    const probe = createServer().listen(port, '127.0.0.1');
    const isFree = await Promise.race([
      once(probe, 'listening').then(() => true),
      once(probe, 'error').then(() => false),
    ]);
    probe.close();
    if (isFree) return port;
  }
}
