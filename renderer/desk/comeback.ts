/*
 * How the coach answers when a run has come back after the host was gone: go on with it, or leave it.
 */

import { askHost } from '../link/connection/own-window.ts';

const UNHEARD = 'The program does not answer: check that it is running, then try again.';

/** Closes the run. Resolves to null if that is done, else to why not. Never rejects. */
export function leaveRun(run: string): Promise<string | null> {
  return post('/leave', { run });
}

/** Says that the coach has read the news and goes on. Resolves as `leaveRun` does. */
export function goOn(): Promise<string | null> {
  return post('/told', {});
}

async function post(path: string, body: object): Promise<string | null> {
  try {
    const reply = await askHost('POST', path, JSON.stringify(body));
    if (reply.status === 200) return null;
    const { why } = JSON.parse(reply.body) as { readonly why?: unknown };
    return typeof why === 'string' ? why : UNHEARD;
  } catch {
    return UNHEARD;
  }
}
