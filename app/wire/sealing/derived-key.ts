/*
 * The keys of one connection, one for each use, from what both ends know and the nonces that each has just made up. No
 * key is the same on another connection or for another use, so nothing that was recorded fits anywhere else.
 */

import { hkdf } from '@noble/hashes/hkdf.js';
import { sha256 } from '@noble/hashes/sha2.js';
import { concatBytes, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';
import { JOINING_VERSION } from '../sharing/joining.ts';

/** 128 random bits from each end, in hexadecimal digits as the messages carry them. */
export interface Nonces {
  readonly screen: string;
  readonly host: string;
}

export type KeyUse = 'proof' | 'given key' | 'screen to host' | 'host to screen';

/** 256 bits by HKDF-SHA-256 (RFC 5869). `secret`: the letters of a code, or a key in hexadecimal digits. */
export function derivedKey(secret: string, { screen, host }: Nonces, use: KeyUse): Uint8Array {
  const salt = concatBytes(hexToBytes(screen), hexToBytes(host));
  return hkdf(sha256, utf8ToBytes(secret), salt, utf8ToBytes(`lanecall ${JOINING_VERSION} ${use}`), 32);
}
