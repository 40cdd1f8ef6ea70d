/*
 * Asking for the squads, which the host keeps.
 */

import type { Squad, SquadsAnswer, SquadsRequest } from '../../../app/wire/squads.ts';
import { askHost } from '../connection/own-window.ts';

export type { Squad, SquadsAnswer, SquadsRequest };

const UNHEARD: SquadsAnswer = { ok: false, why: 'The host does not answer: check that it is running, then try again.' };

/** Never rejects: a host that cannot be reached is a refusal too. */
export async function askSquads(asked: SquadsRequest): Promise<SquadsAnswer> {
  try {
    const { body } = await askHost('POST', '/squads', JSON.stringify(asked));
    const answer = JSON.parse(body) as SquadsAnswer;
    return typeof answer.ok === 'boolean' ? answer : UNHEARD;
  } catch {
    return UNHEARD;
  }
}
