/*
 * Serves the built pages to the windows under `app://lanecall/`, with the same headers as the network server. Only a
 * file on the list of pages can be had, however a path is spelt.
 */

import { protocol, type Session } from 'electron';
import type { Pages } from '../../host/web/pages.ts';
import { contentPolicy, FRAMING, OPENER_POLICY, SAFE_HEADERS, type Framing } from '../../host/web/replies.ts';
import { withStyleNonce } from '../../host/web/style-nonce.ts';
import { plainPage } from './plain-page.ts';
import { ownAddress, PLAIN_PATH, SCHEME } from '../windows/window-kind.ts';

export interface PageReply {
  readonly status: number;
  readonly type: string;
  readonly body: Uint8Array<ArrayBuffer> | string;
  /** Of the style sheets that its script may add; null for none. */
  readonly nonce: string | null;
}

/** Must be called before the program is ready. */
export function registerScheme(): void {
  const privileges = { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true };
  protocol.registerSchemesAsPrivileged([{ scheme: SCHEME, privileges }]);
}

export function servePages(session: Session, pages: Pages): void {
  session.protocol.handle(SCHEME, ({ method, url }) => {
    const { status, type, body, nonce } = pageReply(pages, method, url);
    const framing = FRAMING[ownAddress(url)?.pathname ?? ''];
    return new Response(method === 'HEAD' ? null : body, { status, headers: headersOf(type, nonce, framing) });
  });
}

/** The answer to a request. Only reading is allowed. */
export function pageReply(pages: Pages, method: string, address: string): PageReply {
  const url = ownAddress(address);
  if (!url) return refusal(403, 'Only pages of this program are here.');
  if (method !== 'GET' && method !== 'HEAD') return refusal(405, 'Pages are only read.');
  if (url.pathname === PLAIN_PATH) {
    const kind = url.searchParams.get('window') === 'wall' ? 'wall' : 'desk';
    return { status: 200, type: 'text/html; charset=utf-8', body: plainPage(kind), nonce: null };
  }
  const page = pages.get(url.pathname);
  if (!page) return refusal(404, 'There is no such page.');
  const { body, nonce } = withStyleNonce(page.body);
  return { status: 200, type: page.type, body: new Uint8Array(body), nonce };
}

export function headersOf(type: string, nonce: string | null = null, framing?: Framing): Record<string, string> {
  return {
    ...SAFE_HEADERS,
    ...OPENER_POLICY,
    'Content-Type': type,
    'Content-Security-Policy': contentPolicy(null, nonce, framing),
    'Cache-Control': 'no-store',
  };
}

function refusal(status: number, why: string): PageReply {
  return { status, type: 'text/plain; charset=utf-8', body: `${why}\n`, nonce: null };
}
