/*
 * Asking for the runs that the host keeps.
 */

import type { RecordsAnswer, RecordsRequest, RecordsWish } from '../../../app/wire/records/records.ts';
import { askHost } from '../connection/own-window.ts';

export type {
  RecordsAnswer,
  RecordsGiven,
  RecordsRefusal,
  RecordsRequest,
  RecordsWish,
} from '../../../app/wire/records/records.ts';

export type AskRecords = <Wish extends RecordsWish>(
  asked: Extract<RecordsRequest, { do: Wish }>,
) => Promise<RecordsAnswer<Wish>>;

const UNHEARD = 'The host does not answer: check that it is running, then try again.';

/** Never rejects: a host that cannot be reached is a refusal too. */
export const askRecords: AskRecords = async <Wish extends RecordsWish>(
  asked: Extract<RecordsRequest, { do: Wish }>,
): Promise<RecordsAnswer<Wish>> => {
  try {
    const { body } = await askHost('POST', '/records', JSON.stringify(asked));
    const answer = JSON.parse(body) as RecordsAnswer<Wish>;
    if (typeof answer.ok !== 'boolean') throw new Error('That is no answer.');
    return answer;
  } catch {
    return { ok: false, why: UNHEARD };
  }
};
