/*
 * Asking for the runs that the host keeps.
 */

import type { RecordsAnswer, RecordsRequest, RecordsWish } from '../../../app/wire/records/records.ts';
import { askFor } from './ask-for.ts';

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

/** Never rejects: a host that cannot be reached is a refusal too. */
export const askRecords: AskRecords = <Wish extends RecordsWish>(asked: Extract<RecordsRequest, { do: Wish }>) =>
  askFor<RecordsAnswer<Wish>>('/records', asked);
