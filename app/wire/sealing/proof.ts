/*
 * How a screen proves that it knows its code or its key, without saying it: by an HMAC-SHA-256 over what both ends have
 * said and the address at which the page sees the host. A proof that another address has been given is none here.
 */

import { hmac } from '@noble/hashes/hmac.js';
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { derivedKey, type Nonces } from './derived-key.ts';

/** What the screen knows: the code on the coach's screen, or the key that it was given before. */
export type Known =
  | { readonly say: 'join'; readonly code: string }
  | { readonly say: 'return'; readonly id: string; readonly key: string };

/** The proof, in hexadecimal digits. `address`: the page's `location.host`, such as `192.168.1.20:7525`. */
export function proofOf(known: Known, nonces: Nonces, address: string): string {
  const key = derivedKey(known.say === 'join' ? known.code : known.key, nonces, 'proof');
  const said = [known.say, known.say === 'join' ? '' : known.id, nonces.screen, nonces.host, address];
  // Each with its length before it, so that no two lists read the same.
  const exchange = said.map((part) => `${part.length}:${part}`).join('');
  return bytesToHex(hmac(sha256, key, utf8ToBytes(exchange)));
}

/** Whether this is the proof. Takes as long for a nearly right one as for any other. */
export function isProof(mac: string, known: Known, nonces: Nonces, address: string): boolean {
  const right = proofOf(known, nonces, address);
  const differences = Array.from(right, (digit, at) => digit.charCodeAt(0) ^ mac.charCodeAt(at));
  return differences.reduce((all, each) => all | each, mac.length ^ right.length) === 0;
}
