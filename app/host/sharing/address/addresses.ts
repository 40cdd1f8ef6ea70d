/*
 * The addresses at which others on the same network reach this machine: private IPv4 addresses (RFC 1918) and those that
 * machines give themselves where nobody gives them any (RFC 3927).
 */

import { networkInterfaces } from 'node:os';

export interface PrivateAddress {
  readonly address: string;
  /** Of the interface that has it. */
  readonly name: string;
}

/** Reads the addresses that the machine has now. */
export type Addresses = () => readonly PrivateAddress[];

const PRIVATE = /^(10\.|192\.168\.|169\.254\.|172\.(1[6-9]|2\d|3[01])\.)\d/;

export const systemAddresses: Addresses = () => privateAddresses(networkInterfaces());

export function privateAddresses(interfaces: ReturnType<typeof networkInterfaces>): readonly PrivateAddress[] {
  return Object.entries(interfaces).flatMap(([name, all = []]) =>
    all.filter(({ address }) => PRIVATE.test(address)).map(({ address }) => ({ address, name })),
  );
}

/** Such as homes and pools give; addresses of virtual machines mostly come later, and those that nobody gave last. */
const LIKELIEST = [/^192\.168\./, /^10\./, /^172\./, /^169\./];

/** As the machine lists them, but the likeliest to be the pool's network first. */
export function likeliestFirst(addresses: readonly PrivateAddress[]): readonly PrivateAddress[] {
  return LIKELIEST.flatMap((kind) => addresses.filter(({ address }) => kind.test(address)));
}
