/*
 * How far a page has come in being let in by the host, for what it shows in place of its usual self.
 */

import { createStore, type StoreApi } from 'zustand/vanilla';
import { JOINING_TIME } from '../../../app/wire/sharing/joining.ts';

export { JOINING_TIME };

export type JoiningState =
  /** Nothing stands in its way: it is in, or looks for the host. */
  | { readonly step: 'in' }
  /** A wall shows these digits for the coach to type in, until this time of its own clock (ms). */
  | { readonly step: 'shows'; readonly digits: string; readonly until: number; readonly why: string | null }
  /** Others show their digits: a wall asks for its own at this time of its own clock. */
  | { readonly step: 'waits'; readonly why: string; readonly until: number }
  /** A remote or a tablet has neither key nor code, or no longer a valid one: `why`. `code`: the one that was refused. */
  | { readonly step: 'asks'; readonly why: string | null; readonly code?: string };

export type Joining = StoreApi<JoiningState>;

export function createJoining(): Joining {
  return createStore<JoiningState>(() => ({ step: 'in' }));
}
