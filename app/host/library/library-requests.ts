/*
 * What a coach's window may ask of the library, as one more of the host's requests. What is asked well is answered with
 * 200, a refusal too: it is news for the coach, not a fault of the page.
 */

import { libraryRequest } from '../../wire/library.ts';
import { TEXT_LIMIT } from '../../wire/messages.ts';
import { asJson, jsonOf, refusal, TOO_LARGE, type Question } from '../deck/answers/coach-requests.ts';
import type { Library } from './library.ts';

export const LIBRARY_PATH = '/library';

export function libraryQuestion(library: Library): Question {
  return asJson('Send what is asked of the library as application/json.', async (_, { body }) => {
    if (!body.ok) return refusal(body.why === 'too large' ? 413 : 400, TOO_LARGE);
    const asked = libraryRequest.safeParse(jsonOf(body.bytes));
    if (!asked.success) return refusal(400, 'That is nothing that can be asked of the library.');
    if ('text' in asked.data && Buffer.byteLength(asked.data.text) > TEXT_LIMIT) return refusal(413, TOO_LARGE);
    return { status: 200, value: await library.ask(asked.data) };
  });
}
