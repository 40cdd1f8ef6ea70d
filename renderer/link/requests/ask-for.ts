/*
 * Asking the host for what it keeps: one JSON object to one of its paths, and one back that says whether it was `ok`.
 */

import { askHost } from '../connection/own-window.ts';

export const UNHEARD = 'The program does not answer: check that it is running, then try again.';

interface Refusal {
  readonly ok: false;
  readonly why: string;
}

/** Never rejects: a host that cannot be reached, or says what is no answer, is a refusal too; `unheard` says so. */
export async function askFor<Answer extends { readonly ok: true } | Refusal>(
  path: string,
  asked: object,
  unheard = UNHEARD,
): Promise<Answer | Refusal> {
  try {
    const { body } = await askHost('POST', path, JSON.stringify(asked));
    const answer = JSON.parse(body) as Answer;
    if (typeof answer.ok === 'boolean') return answer;
  } catch {
    // No host, or no JSON.
  }
  return { ok: false, why: unheard };
}
