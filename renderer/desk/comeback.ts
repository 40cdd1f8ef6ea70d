/*
 * What the coach says to a run that has come back after the host was gone: go on with it, or leave it.
 */

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
    const headers = { 'Content-Type': 'application/json' };
    const response = await fetch(path, { method: 'POST', headers, body: JSON.stringify(body) });
    if (response.ok) return null;
    const { why } = (await response.json()) as { readonly why?: unknown };
    return typeof why === 'string' ? why : UNHEARD;
  } catch {
    return UNHEARD;
  }
}
