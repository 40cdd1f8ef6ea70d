/* A screen is let in by what it knows, and by nothing that was said before or elsewhere. */

import { createHmac, hkdfSync } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isProof, proofOf, type Known } from '../../../app/wire/sealing/proof.ts';
import { runs } from '../../support/run/runs.ts';

const NONCES = { screen: '00112233445566778899aabbccddeeff', host: 'ffeeddccbbaa99887766554433221100' };
const ADDRESS = '192.168.1.20:7525';
const JOIN: Known = { say: 'join', code: '0123456789ABCDEFGHJK' };
const RETURN: Known = { say: 'return', id: '0123456789abcdef', key: 'ab'.repeat(32) };

/** As Node's own library makes it. */
function byNode(secret: string, exchange: string): string {
  const salt = Buffer.from(NONCES.screen + NONCES.host, 'hex');
  const key = Buffer.from(hkdfSync('sha256', secret, salt, 'lanecall 1 proof', 32));
  return createHmac('sha256', key).update(exchange).digest('hex');
}

const SAID = `32:${NONCES.screen}32:${NONCES.host}17:${ADDRESS}`;

test('a proof is an HMAC-SHA-256 over all that was said, each part with its length, under a key by HKDF', () => {
  expect(proofOf(JOIN, NONCES, ADDRESS)).toBe(byNode(JOIN.say === 'join' ? JOIN.code : '', `4:join0:${SAID}`));
  expect(proofOf(RETURN, NONCES, ADDRESS)).toBe(byNode('ab'.repeat(32), `6:return16:0123456789abcdef${SAID}`));
});

describe.each([
  ['joins', JOIN],
  ['returns', RETURN],
])('a screen that %s', (_, known) => {
  const right = (): string => proofOf(known, NONCES, ADDRESS);

  test('proves it', () => {
    expect(isProof(right(), known, NONCES, ADDRESS)).toBe(true);
  });

  test.each<[string, typeof NONCES, string]>([
    ['another nonce of the screen', { ...NONCES, screen: NONCES.host }, ADDRESS],
    ['another nonce of the host', { ...NONCES, host: NONCES.screen }, ADDRESS],
    ['both nonces the other way round', { screen: NONCES.host, host: NONCES.screen }, ADDRESS],
    ['another address', NONCES, '192.168.1.21:7525'],
    ['another port', NONCES, '192.168.1.20:7526'],
    ['no address', NONCES, ''],
  ])('proves nothing for %s', (_what, nonces, address) => {
    expect(isProof(right(), known, nonces, address)).toBe(false);
  });

  test('proves nothing with one digit changed, left out or added', () => {
    const proof = right();
    for (let at = 0; at < proof.length; at++) {
      const other = (Number.parseInt(proof.charAt(at), 16) ^ 1).toString(16);
      expect(isProof(proof.slice(0, at) + other + proof.slice(at + 1), known, NONCES, ADDRESS)).toBe(false);
    }
    for (const mac of [proof.slice(0, -1), proof.slice(1), `${proof}0`, '', proof.toUpperCase()]) {
      expect(isProof(mac, known, NONCES, ADDRESS)).toBe(false);
    }
  });
});

test.each<[string, Known]>([
  ['the code', { say: 'join', code: '0123456789ABCDEFGHJM' }],
  ['the id', { say: 'return', id: '0123456789abcdee', key: 'ab'.repeat(32) }],
  ['the key', { say: 'return', id: '0123456789abcdef', key: `${'ab'.repeat(31)}aa` }],
])('a proof for another than %s proves nothing', (_, known) => {
  expect(isProof(proofOf(known, NONCES, ADDRESS), known.say === 'join' ? JOIN : RETURN, NONCES, ADDRESS)).toBe(false);
});

test('a key that reads as a code proves no joining, and a code no return', () => {
  const key = '0123456789ABCDEFGHJK';
  const returned = proofOf({ say: 'return', id: '', key }, NONCES, ADDRESS);
  expect(isProof(returned, JOIN, NONCES, ADDRESS)).toBe(false);
});

test('a wrong code never proves anything', () => {
  const hex = (bytes: number) => fc.uint8Array({ minLength: bytes, maxLength: bytes }).map(hexOf);
  fc.assert(
    fc.property(hex(10), hex(10), hex(16), hex(16), (code, guess, screen, host) => {
      fc.pre(code !== guess);
      const nonces = { screen, host };
      expect(
        isProof(proofOf({ say: 'join', code: guess }, nonces, ADDRESS), { say: 'join', code }, nonces, ADDRESS),
      ).toBe(false);
    }),
    { numRuns: runs(100) },
  );
});

function hexOf(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('hex');
}
