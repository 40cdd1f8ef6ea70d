/*
 * What a coach's window may ask of the squads, as one more of the host's requests. A refusal is answered with 200: it is
 * news for the coach, not a fault of the page.
 */

import { squadsRequest } from '../../wire/squads.ts';
import { asJson, jsonOf, refusal, type Question } from '../deck/answers/coach-requests.ts';
import type { Squads } from './squads.ts';

export const SQUADS_PATH = '/squads';

export function squadsQuestion(squads: Squads): Question {
  return asJson('Send what is asked of the squads as application/json.', async (_, { body }) => {
    if (!body.ok) return refusal(body.why === 'too large' ? 413 : 400, 'A squad has 20 lanes at most.');
    const asked = squadsRequest.safeParse(jsonOf(body.bytes));
    if (!asked.success) return refusal(400, 'That is nothing that can be asked of the squads.');
    return { status: 200, value: await squads.ask(asked.data) };
  });
}
