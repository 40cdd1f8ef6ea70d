/*
 * Reads the body of a request, up to a limit. Of a longer one the rest is read for a while and dropped, because a
 * browser does not read the answer before it has sent everything.
 */

import type { IncomingMessage } from 'node:http';

export type Body =
  { readonly ok: true; readonly bytes: Buffer } | { readonly ok: false; readonly why: 'too large' | 'broken off' };

/** How many bytes over the limit are read before the answer is given anyway. */
const LISTEN_ON = 8 * 1024 * 1024;

/** Resolves with at most `limit` bytes; never rejects. */
export function readBody(request: IncomingMessage, limit: number): Promise<Body> {
  return new Promise((resolve) => {
    let chunks: Buffer[] = [];
    let length = 0;
    request.on('data', (chunk: Buffer) => {
      length += chunk.length;
      if (length <= limit) chunks.push(chunk);
      else chunks = [];
      if (length > limit + LISTEN_ON) {
        request.pause();
        resolve({ ok: false, why: 'too large' });
      }
    });
    request.on('end', () => {
      resolve(length > limit ? { ok: false, why: 'too large' } : { ok: true, bytes: Buffer.concat(chunks) });
    });
    request.on('error', () => resolve({ ok: false, why: 'broken off' }));
    request.on('close', () => resolve({ ok: false, why: 'broken off' }));
  });
}
