/*
 * A page whose program is of another version, as after an update under a page that stayed open: what it
 * says, and how it loads itself anew, which gets the page that goes with the program.
 */

import { WIRE_VERSION, type FromHost, type Heard } from '../../app/wire/messages.ts';

/** For whoever stands before the page; what is not known here a newer program has said. */
export function sentenceFor(read: Exclude<Heard<FromHost>, { kind: 'message' }>): string {
  if (read.kind === 'no message') return 'This page cannot read what the program says: reload it.';
  if (read.kind === 'other version' && !read.newer) return 'This page is newer than the program: reload it.';
  return 'This page is older than the program: reload it.';
}

/** Under this key a tab remembers which version of this page has loaded itself anew in it. */
const KEY = 'lanecall.reloaded';

/**
 * Loads the page anew, once for its version and tab: where that brings the same page again, or nothing can be
 * remembered, the sentence is left to people. `storage` throws where the browser keeps nothing.
 */
export function reloadOnce(storage: () => Pick<Storage, 'getItem' | 'setItem'>, reload: () => void): void {
  try {
    if (storage().getItem(KEY) === `${WIRE_VERSION}`) return;
    storage().setItem(KEY, `${WIRE_VERSION}`);
  } catch {
    return;
  }
  reload();
}
