/*
 * One sealed connection of a remote, a tablet or a page of this machine: it proves what it knows without saying it, and
 * from then on every frame is sealed. It is loaded where it is wanted, and never by a wall.
 */

import {
  JOINING_VERSION,
  type CodePage,
  type FromDoor,
  type FromJoiner,
  type KeyGiven,
} from '../../../app/wire/sharing/joining.ts';
import type { Nonces } from '../../../app/wire/sealing/derived-key.ts';
import { openedKey } from '../../../app/wire/sealing/given-key.ts';
import { proofOf, type Known } from '../../../app/wire/sealing/proof.ts';
import { sealedEnd, type SealedEnd } from '../../../app/wire/sealing/sealed-channel.ts';
import type { Connection, Heard } from '../connection/carrier.ts';
import { goodbye, hearDoor } from './door-message.ts';

export interface Entrance {
  /** Of the socket. */
  readonly address: string;
  /** The host as this page sees it: `location.host`. */
  readonly host: string;
  readonly known: Known;
  /** Whose page this is. */
  readonly page: CodePage;
  /** 128 random bits in hexadecimal digits, for this connection alone. */
  readonly nonce: string;
}

export interface SealedHeard extends Heard {
  /** The key that it got for its code, before `opened`. */
  given(key: KeyGiven): void;
  /** What it knows is not, or no longer, valid. `closed` follows. */
  refused(why: string): void;
}

export function connectSealed({ address, host, known, page, nonce }: Entrance, heard: SealedHeard): Connection {
  const socket = new WebSocket(address);
  socket.binaryType = 'arraybuffer';
  let nonces: Nonces | null = null;
  let end: SealedEnd | null = null;
  let isIn = false;
  let over = false;

  const say = (message: FromJoiner): void => socket.send(JSON.stringify(message));
  const hangUp = (): void => {
    if (over) return;
    over = true;
    socket.close();
    heard.closed();
  };
  const comeIn = (): void => {
    isIn = true;
    heard.opened();
  };

  function prove(theirs: string): void {
    if (nonces) return hangUp();
    nonces = { screen: nonce, host: theirs };
    if (known.say === 'return') end = sealedEnd('screen', known.key, nonces);
    say({ say: 'proof', mac: proofOf(known, nonces, host) });
  }

  function take(sealed: string): void {
    const given = known.say === 'join' && nonces ? openedKey(sealed, known.code, nonces) : null;
    if (!given || !nonces) return hangUp();
    end = sealedEnd('screen', given.key, nonces);
    heard.given(given);
    comeIn();
  }

  /** Before it is in. `isSealed`: only who has the key can have said it. */
  function hear(message: FromDoor | null, isSealed: boolean): void {
    switch (message?.say) {
      case 'prove':
        return isSealed ? hangUp() : prove(message.nonce);
      case 'key':
        return isSealed ? hangUp() : take(message.sealed);
      case 'welcome':
        return isSealed ? comeIn() : hangUp();
      case 'bye':
        if (message.again) heard.refused(message.why);
        else heard.message(goodbye(message.why));
        return hangUp();
      case 'digits':
      case 'let-in':
      case undefined:
        return hangUp();
    }
  }

  function frame(data: unknown): void {
    if (typeof data === 'string') return isIn ? hangUp() : hear(hearDoor(data), false);
    const text = end && data instanceof ArrayBuffer ? end.open(new Uint8Array(data)) : null;
    if (text === null) return hangUp();
    if (isIn) heard.message(text);
    else hear(hearDoor(text), true);
  }

  socket.onopen = () => {
    if (over) return;
    if (known.say === 'join') say({ say: 'join', version: JOINING_VERSION, nonce, page });
    else say({ say: 'return', version: JOINING_VERSION, id: known.id, nonce });
  };
  socket.onmessage = ({ data }: MessageEvent<unknown>) => {
    if (!over) frame(data);
  };
  socket.onclose = hangUp;
  return {
    send(message) {
      if (isIn && end && socket.readyState === WebSocket.OPEN) socket.send(end.seal(message).slice());
    },
    close() {
      over = true;
      socket.close();
    },
  };
}
