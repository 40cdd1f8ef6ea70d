/*
 * What was said of a mark.
 */

import { commaed } from '../words/phrase.ts';

/** `more`, added afterwards, follows the mark's own words, unless it begins with them: then they are not said twice. */
export function markText(own: string, more: string): string {
  const added = more.trim();
  const isSaid = added.toLowerCase().startsWith(own.toLowerCase()) && !/^[\p{L}\p{N}]/u.test(added.slice(own.length));
  return own === '' || isSaid ? added : commaed(own, added);
}
