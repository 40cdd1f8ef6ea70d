/*
 * The key that a remote or a tablet gets for its code, sealed under the code: only who knows the code can read it, and
 * only the host that shows the code can have made it.
 */

import { chacha20poly1305 } from '@noble/ciphers/chacha.js';
import { bytesToHex, bytesToUtf8, hexToBytes, utf8ToBytes } from '@noble/ciphers/utils.js';
import { keyGiven, type KeyGiven } from '../sharing/joining.ts';
import { derivedKey, type Nonces } from './derived-key.ts';

/** In hexadecimal digits. Once for each pair of nonces. */
export function sealedKey(given: KeyGiven, code: string, nonces: Nonces): string {
  return bytesToHex(cipher(code, nonces).encrypt(utf8ToBytes(JSON.stringify(given))));
}

/** Null where it was sealed under another code, for other nonces, or changed on its way. */
export function openedKey(sealed: string, code: string, nonces: Nonces): KeyGiven | null {
  try {
    const opened: unknown = JSON.parse(bytesToUtf8(cipher(code, nonces).decrypt(hexToBytes(sealed))));
    return keyGiven.parse(opened);
  } catch {
    return null;
  }
}

/** The key is used for one message only, so that its nonce may be nothing. */
function cipher(code: string, nonces: Nonces) {
  return chacha20poly1305(derivedKey(code, nonces, 'given key'), new Uint8Array(12));
}
