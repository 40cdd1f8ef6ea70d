/*
 * What a coach's window may ask about the runs that are kept, as one more of the host's requests. What is asked well is
 * answered with 200, a refusal too: it is news for the coach, not a fault of the page.
 */

import { recordsRequest } from '../../wire/records/records.ts';
import { asJson, jsonOf, refusal, type Question } from '../deck/answers/coach-requests.ts';
import type { Records } from './records.ts';

export const RECORDS_PATH = '/records';

export function recordsQuestion(records: Records): Question {
  return asJson('Send what is asked about the runs as application/json.', async (_, { body }) => {
    if (!body.ok)
      return refusal(body.why === 'too large' ? 413 : 400, 'That is too much to add to one run: leave something out.');
    const asked = recordsRequest.safeParse(jsonOf(body.bytes));
    if (!asked.success) return refusal(400, 'That is nothing that can be asked about the runs.');
    return { status: 200, value: await records.ask(asked.data) };
  });
}
