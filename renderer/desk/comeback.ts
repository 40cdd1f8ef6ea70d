/*
 * What the coach says to a run that has come back after the host was gone: go on with it, or leave it.
 */

import { askHost } from '../link/connection/own-window.ts';

const UNHEARD = 'The host does not answer: see that it runs, then try again.';

/** The run is closed. Null where that is done, else why it is not. Never rejects. */
export function leaveRun(run: string): Promise<string | null> {
  return post('/leave', { run });
}

/** What there was to be told has been read, and the run goes on. Answers as `leaveRun`. */
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
