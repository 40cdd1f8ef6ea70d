/*
 * The code in the fragment of the address that a page was opened with. It is taken out at once: the address bar, the
 * history and a reload have nothing of it.
 */

import { readCode } from '../../../app/wire/sealing/code.ts';

/** Null where there is none. */
export function takeCode({ location, history }: Pick<Window, 'location' | 'history'>): string | null {
  const { hash, pathname, search } = location;
  if (hash === '') return null;
  history.replaceState(null, '', pathname + search);
  return readCode(hash.slice(1));
}
