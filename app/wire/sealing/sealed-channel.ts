/*
 * The sealed frames of a remote, a tablet or a page of this machine: ChaCha20-Poly1305 (RFC 8439), a key for each
 * direction, the number of the frame as nonce. The number is not sent: a frame that is not the next one from the other
 * end does not open, whatever else it is.
 */

import { chacha20poly1305 } from '@noble/ciphers/chacha.js';
import { bytesToUtf8, utf8ToBytes } from '@noble/ciphers/utils.js';
import { SEALED_LIMIT } from '../messages.ts';
import { derivedKey, type Nonces } from './derived-key.ts';

export interface SealedEnd {
  /** The next frame to send. A screen's throws a RangeError if it would be larger than `SEALED_LIMIT`. */
  seal(text: string): Uint8Array;
  /** The text of the next frame from the other end. After the first null every frame gives null: hang up. */
  open(frame: Uint8Array): string | null;
}

/** How many bytes a frame has besides its text. */
export const SEAL_LENGTH = 16;

/** The end of this side. `key`: what both have, in hexadecimal digits; `nonces`: those of this connection. */
export function sealedEnd(end: 'host' | 'screen', key: string, nonces: Nonces): SealedEnd {
  const ofHost = derivedKey(key, nonces, 'host to screen');
  const ofScreen = derivedKey(key, nonces, 'screen to host');
  const isHost = end === 'host';
  const [ours, theirs] = isHost ? [ofHost, ofScreen] : [ofScreen, ofHost];
  // What the host says may be longer: a screen has asked for it.
  const [mostSent, mostOpened] = isHost ? [Infinity, SEALED_LIMIT] : [SEALED_LIMIT, Infinity];
  let sent = 0;
  let opened = 0;
  let isDead = false;
  return {
    seal(text) {
      const bytes = utf8ToBytes(text);
      if (bytes.length + SEAL_LENGTH > mostSent) throw new RangeError('The message is too long to be sealed.');
      return chacha20poly1305(ours, frameNonce(sent++)).encrypt(bytes);
    },
    open(frame) {
      if (isDead) return null;
      try {
        if (frame.length > mostOpened) throw new RangeError('The frame is too long.');
        return bytesToUtf8(chacha20poly1305(theirs, frameNonce(opened++)).decrypt(frame));
      } catch {
        isDead = true;
        return null;
      }
    },
  };
}

/** Of the nth frame of a direction, from 0: 96 bits, the highest first. Throws a RangeError after 2^32 frames. */
export function frameNonce(n: number): Uint8Array {
  if (n >= 2 ** 32) throw new RangeError('A key seals no more than 2^32 frames.');
  const nonce = new Uint8Array(12);
  new DataView(nonce.buffer).setUint32(8, n);
  return nonce;
}
