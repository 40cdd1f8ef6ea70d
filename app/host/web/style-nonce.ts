/*
 * The coach's editor writes its style sheet as it opens. The policy lets that one in by a word that is new with each
 * page, and stands in the page and in its policy alone.
 */

import { randomBytes } from 'node:crypto';

/** What the page as it was built has in the word's place; as long as the word, so that the page's length stays. */
const PLACE = 'word-for-style-sheets-';

/** The page with a new word in it, and the word; null for a page that has no place for one. */
export function withStyleNonce(body: Buffer): { readonly body: Buffer; readonly nonce: string | null } {
  if (!body.includes(PLACE)) return { body, nonce: null };
  const nonce = randomBytes(16).toString('base64url');
  return { body: Buffer.from(body.toString().replace(PLACE, nonce)), nonce };
}
