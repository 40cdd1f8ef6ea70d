/*
 * How a remote, a tablet or the coach's page of this machine reaches the host: by the desktop program's own channel, or
 * by a socket that is sealed wherever the page has been let in.
 */

import {
  JOINING_PAGES,
  readKeyGiven,
  SOCKETS,
  type CodePage,
  type KeyGiven,
  type Role,
} from '../../../app/wire/sharing/joining.ts';
import { readCode } from '../../../app/wire/sealing/code.ts';
import type { Carrier } from '../connection/carrier.ts';
import { askBy, hostAddress, ownCarrier } from '../connection/own-window.ts';
import { newId } from '../connection/ports.ts';
import { createAsking } from './asking.ts';
import { deckCarrier, type ConnectSealed } from './deck-carrier.ts';
import { isOnNetwork } from './own-place.ts';
import { takeCode } from './fragment.ts';
import { createJoining, type Joining } from './joining.ts';
import { keptKey, type KeptKey } from './kept-key.ts';

export interface DeckJoining {
  readonly carrier: Carrier;
  readonly joining: Joining;
  /** Joins by what somebody has typed; false where that is no code. */
  enter(typed: string): boolean;
}

export function joinDeck(page: 'desk' | 'remote'): DeckJoining {
  const joining = createJoining();
  if (hostAddress() === null) return { carrier: ownCarrier(), joining, enter: () => false };
  const isHere = !isOnNetwork();
  const role: CodePage = page === 'remote' ? 'remote' : isHere ? 'coach' : 'tablet';
  const carrier = deckCarrier({
    role,
    code: takeCode(window),
    kept: keyOf(role),
    joining,
    asking: createAsking({
      newId,
      after: (delay, call) => {
        const timer = window.setTimeout(call, delay);
        return () => window.clearTimeout(timer);
      },
    }),
    plain: isHere ? ownCarrier() : null,
    load: () => load(role),
    askBy,
    handOver(key) {
      keyOf(key.role).keep(key);
      const path = key.role === 'wall' ? '/' : JOINING_PAGES[key.role];
      if (path !== location.pathname) location.assign(path);
    },
  });
  // Scanned again with this page open: only the fragment is another.
  window.addEventListener('hashchange', () => {
    const code = takeCode(window);
    if (code !== null) carrier.enter(code);
  });
  return {
    carrier,
    joining,
    enter(typed) {
      const code = readCode(typed);
      if (code !== null) carrier.enter(code);
      return code !== null;
    },
  };
}

/** A page of this machine has its key for as long as its window is open, another device for as long as it is valid. */
function keyOf(role: Role): KeptKey<KeyGiven> {
  const shelf = (): Storage => (role === 'coach' ? window.sessionStorage : window.localStorage);
  return keptKey(`lanecall.key.${role}`, readKeyGiven, shelf);
}

async function load(page: CodePage): Promise<ConnectSealed> {
  const { connectSealed } = await import('./sealed-carrier.ts');
  const entrance = { address: `ws://${location.host}${SOCKETS.deck}`, host: location.host, page };
  return (known, heard) => connectSealed({ ...entrance, known, nonce: newId() }, heard);
}
