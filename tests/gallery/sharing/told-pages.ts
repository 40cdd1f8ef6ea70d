/*
 * Pages that are told something in the host's place: of sharing, without a network that has to be lost for it, and of what
 * the network itself does.
 */

import type { BrowserContext } from 'playwright';
import type { FromHost } from '../../../app/wire/messages.ts';

/**
 * Every page of the context hears these right after its first snapshot, and no other messages of their kinds. `refusal`: what
 * it is told if it wants something of sharing.
 */
export async function tellPages(
  context: BrowserContext,
  told: readonly FromHost[],
  refusal: string | null = null,
): Promise<void> {
  const kinds = new Set<string>(told.map(({ say }) => say));
  await context.routeWebSocket(/\/deck$/, (page) => {
    const host = page.connectToServer();
    page.onMessage((message) => {
      const { say, id } = JSON.parse(String(message)) as { say: string; id?: string };
      if (say !== 'sharing' || refusal === null) host.send(message);
      else page.send(JSON.stringify({ say: 'answer', id, ok: false, at: null, why: refusal }));
    });
    host.onMessage((message) => {
      const { say } = JSON.parse(String(message)) as { say: string };
      if (!kinds.has(say)) page.send(message);
      if (say === 'snapshot') for (const each of told) page.send(JSON.stringify(each));
    });
  });
}

/** In ms: so late that the host’s time is known to 0.2 s at best. */
const FAR = 300;

/** Whatever the host says comes so late that a page's clock is poor. */
export async function keepFar(context: BrowserContext): Promise<void> {
  await context.routeWebSocket(/\/deck$/, (page) => {
    const host = page.connectToServer();
    host.onMessage((message) => void setTimeout(() => page.send(message), FAR));
  });
}

/** The returned function cuts the pages' connections, and lets none through any more. */
export async function cuttable(context: BrowserContext): Promise<() => Promise<void>> {
  let isCut = false;
  const open: (() => Promise<void>)[] = [];
  await context.routeWebSocket(/\/deck$/, (page) => {
    if (isCut) return void page.close();
    page.connectToServer();
    open.push(() => page.close());
  });
  return async () => {
    isCut = true;
    for (const close of open) await close();
  };
}
