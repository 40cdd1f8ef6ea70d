/*
 * Where keys, codes and digits come from, as a port, so that tests know what comes next.
 */

import { randomBytes, randomInt } from 'node:crypto';

export interface Chance {
  bytes(count: number): Uint8Array;
  /** A whole number from 0, below this. */
  below(limit: number): number;
}

/** The chance of the operating system, which nobody can foretell. */
export const systemChance: Chance = { bytes: (count) => randomBytes(count), below: (limit) => randomInt(limit) };

/** So many random bytes in hexadecimal digits. */
export function randomHex(chance: Chance, bytes: number): string {
  return Buffer.from(chance.bytes(bytes)).toString('hex');
}
