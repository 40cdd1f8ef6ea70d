/*
 * The name that host and screens use for a session text, so that the text is sent only once.
 */

import { createHash } from 'node:crypto';
import type { Source } from '../../core/plan/plan.ts';

/** 32 hexadecimal digits, the same for the same texts. */
export function textHash({ text, lanesText }: Source): string {
  return createHash('sha256')
    .update(JSON.stringify([text, lanesText]))
    .digest('hex')
    .slice(0, 32);
}
