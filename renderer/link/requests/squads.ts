/*
 * Asking for the squads, which the host keeps.
 */

import type { Squad, SquadsAnswer, SquadsRequest } from '../../../app/wire/squads.ts';
import { askFor } from './ask-for.ts';

export type { Squad, SquadsAnswer, SquadsRequest };

/** Never rejects: a host that cannot be reached is a refusal too. */
export function askSquads(asked: SquadsRequest): Promise<SquadsAnswer> {
  return askFor('/squads', asked);
}
