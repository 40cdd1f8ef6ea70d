/*
 * Answers over HTTP, all with the same safe headers.
 */

import type { ServerResponse } from 'node:http';
import type { Page } from './pages.ts';
import { withStyleNonce } from './style-nonce.ts';

/** Which page may have which in a frame: the coach's window shows wall screens small. */
export type Framing = 'frames walls' | 'framed' | 'neither';

export const FRAMING: { readonly [path: string]: Framing } = { '/': 'frames walls', '/display': 'framed' };

/**
 * Allows nothing from elsewhere and nothing inline; sounds are fetched. `socket`: where pages may connect besides their
 * origin; `nonce`: of the style sheets that the page's own script may add, null for none.
 */
export function contentPolicy(
  socket: string | null,
  nonce: string | null = null,
  framing: Framing = 'neither',
): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    nonce === null ? "style-src 'self'" : `style-src 'self' 'nonce-${nonce}'`,
    "font-src 'self'",
    "img-src 'self' data:",
    "media-src 'self'",
    "manifest-src 'self'",
    socket === null ? "connect-src 'self'" : `connect-src 'self' ${socket}`,
    ...(framing === 'frames walls' ? ["frame-src 'self'"] : []),
    `frame-ancestors ${framing === 'framed' ? "'self'" : "'none'"}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

export const SAFE_HEADERS = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/** Not for the network: it counts in secure contexts alone, and over plain http a browser only complains of it. */
export const OPENER_POLICY = { 'Cross-Origin-Opener-Policy': 'same-origin' };

export function sendPage(response: ServerResponse, page: Page, host: string, framing?: Framing): void {
  const { body, nonce } = withStyleNonce(page.body);
  response.writeHead(200, {
    ...SAFE_HEADERS,
    'Content-Type': page.type,
    'Content-Length': body.length,
    'Content-Security-Policy': contentPolicy(socketOf(host), nonce, framing),
    'Cache-Control': page.lasting ? 'public, max-age=31536000, immutable' : 'no-store',
  });
  response.end(response.req.method === 'HEAD' ? undefined : body);
}

/** Old browsers need the full address of the socket. A policy cannot name an IPv6 address; 'self' covers that. */
function socketOf(host: string): string | null {
  return host.startsWith('[') ? null : `ws://${host}`;
}

export function sendJson(
  response: ServerResponse,
  status: number,
  value: object,
  more: Record<string, string> = {},
): void {
  const body = Buffer.from(`${JSON.stringify(value)}\n`);
  response.writeHead(status, {
    ...SAFE_HEADERS,
    'Content-Type': 'application/json; charset=utf-8',
    'Content-Length': body.length,
    'Cache-Control': 'no-store',
    ...more,
  });
  response.end(response.req.method === 'HEAD' ? undefined : body);
}

/** Sends a refusal with its reason in a sentence, and closes the connection: what is still coming is not read. */
export function sendRefusal(response: ServerResponse, status: number, why: string): void {
  sendJson(response, status, { ok: false, why }, { Connection: 'close' });
}
