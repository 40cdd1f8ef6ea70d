/* The built pages as the windows get them, under the program's own scheme. */

import { expect, test, vi } from 'vitest';
import type { Session } from 'electron';
import { pageReply, servePages } from '../../../app/desktop/pages/app-pages.ts';
import { mayHave } from '../../../app/desktop/pages/permissions.ts';
import { plainPage } from '../../../app/desktop/pages/plain-page.ts';
import { contentPolicy } from '../../../app/host/web/replies.ts';
import type { Page } from '../../../app/host/web/pages.ts';

vi.mock('electron', () => ({ protocol: {} }));

const page = (text: string): Page => ({ body: Buffer.from(text), type: 'text/html; charset=utf-8', lasting: true });
const PAGES = new Map([
  ['/', page('desk')],
  ['/display', page('wall')],
]);

/** What a window gets for a request. */
async function asked(address: string, method = 'GET') {
  let answer: ((request: { readonly method: string; readonly url: string }) => Response) | null = null;
  let scheme = '';
  const handle = (name: string, handler: typeof answer): void => {
    scheme = name;
    answer = handler;
  };
  servePages({ protocol: { handle } } as unknown as Session, PAGES);
  expect(scheme).toBe('app');
  const reply = answer!({ method, url: address });
  return { status: reply.status, headers: Object.fromEntries(reply.headers), body: await reply.text() };
}

test.each([
  ['/', 'desk', 'frames walls'],
  ['/display?preview=Hall', 'wall', 'framed'],
] as const)(
  '[desktop] %s is the page of the %s, kept nowhere, with the policy of what it frames',
  async (path, body, framing) => {
    const reply = await asked(`app://lanecall${path}`);
    expect([reply.status, reply.body]).toEqual([200, body]);
    expect(reply.headers).toEqual({
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-resource-policy': 'same-origin',
      'cross-origin-opener-policy': 'same-origin',
      'content-type': 'text/html; charset=utf-8',
      'content-security-policy': contentPolicy(null, null, framing),
      'cache-control': 'no-store',
    });
  },
);

test('[desktop] a request for the head of a page gets no body', async () => {
  expect(await asked('app://lanecall/', 'HEAD')).toMatchObject({ status: 200, body: '' });
});

test.each([
  ['app://lanecall/stopped?window=wall', 'wall'],
  ['app://lanecall/stopped?window=desk', 'desk'],
  ['app://lanecall/stopped', 'desk'],
] as const)('[desktop] %s is the plain page of the %s', async (address, kind) => {
  expect(await asked(address)).toMatchObject({ status: 200, body: plainPage(kind) });
  expect(pageReply(PAGES, 'GET', address)).toMatchObject({ type: 'text/html; charset=utf-8', nonce: null });
});

test.each([
  ['GET', 'app://elsewhere/', 403, 'Only pages of this program are here.\n'],
  ['PUT', 'app://lanecall/', 405, 'Pages are only read.\n'],
  ['GET', 'app://lanecall/none', 404, 'There is no such page.\n'],
])('[desktop] %s %s is refused with a sentence', async (method, address, status, body) => {
  const reply = await asked(address, method);
  expect([reply.status, reply.body]).toEqual([status, body]);
  expect(reply.headers['content-type']).toBe('text/plain; charset=utf-8');
});

test('[desktop] a page may go full screen and nothing else, and only one of ours', () => {
  expect(mayHave('fullscreen', 'app://lanecall/')).toBe(true);
  expect(mayHave('media', 'app://lanecall/')).toBe(false);
  expect(mayHave('fullscreen', 'app://elsewhere/')).toBe(false);
});
