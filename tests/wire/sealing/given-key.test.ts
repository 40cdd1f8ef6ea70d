/* The key that a screen is given opens under its code alone. */

import { createDecipheriv, hkdfSync } from 'node:crypto';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fromDoor, type KeyGiven } from '../../../app/wire/sharing/joining.ts';
import { codeOf } from '../../../app/wire/sealing/code.ts';
import { openedKey, sealedKey } from '../../../app/wire/sealing/given-key.ts';
import { runs } from '../../support/run/runs.ts';

const NONCES = { screen: '00112233445566778899aabbccddeeff', host: 'ffeeddccbbaa99887766554433221100' };
const CODE = '0123456789ABCDEFGHJK';
const GIVEN: KeyGiven = { id: '0123456789abcdef', key: 'ab'.repeat(32), role: 'remote', name: 'Remote 1' };

test('it opens under the code and for the nonces that it was sealed with', () => {
  expect(openedKey(sealedKey(GIVEN, CODE, NONCES), CODE, NONCES)).toEqual(GIVEN);
});

test('it is sealed as RFC 8439 and RFC 5869 say', () => {
  const sealed = Buffer.from(sealedKey(GIVEN, CODE, NONCES), 'hex');
  const salt = Buffer.from(NONCES.screen + NONCES.host, 'hex');
  const key = Buffer.from(hkdfSync('sha256', CODE, salt, 'lanecall 1 given key', 32));
  const decipher = createDecipheriv('chacha20-poly1305', key, Buffer.alloc(12), { authTagLength: 16 });
  decipher.setAuthTag(sealed.subarray(-16));
  const opened = Buffer.concat([decipher.update(sealed.subarray(0, -16)), decipher.final()]);
  expect(JSON.parse(opened.toString('utf8'))).toEqual(GIVEN);
});

test('the longest name fits into the message that carries it', () => {
  const sealed = sealedKey({ ...GIVEN, role: 'tablet', name: '\u{1f3ca}'.repeat(40) }, CODE, NONCES);
  expect(fromDoor.safeParse({ say: 'key', sealed }).success).toBe(true);
});

test('it opens for no other nonces, and not with any bit changed or byte left out', () => {
  const sealed = sealedKey(GIVEN, CODE, NONCES);
  expect(openedKey(sealed, CODE, { ...NONCES, screen: NONCES.host })).toBeNull();
  expect(openedKey(sealed, CODE, { ...NONCES, host: NONCES.screen })).toBeNull();
  for (let bit = 0; bit < sealed.length * 4; bit++) {
    const at = bit >> 2;
    const digit = (Number.parseInt(sealed.charAt(at), 16) ^ (1 << (bit & 3))).toString(16);
    expect(openedKey(sealed.slice(0, at) + digit + sealed.slice(at + 1), CODE, NONCES)).toBeNull();
  }
  for (const text of ['', '00', sealed.slice(2), sealed.slice(0, -2), sealed.slice(0, -1), `${sealed}00`]) {
    expect(openedKey(text, CODE, NONCES)).toBeNull();
  }
});

test('a wrong code never opens it', () => {
  const code = fc.uint8Array({ minLength: 20, maxLength: 20 }).map(codeOf);
  fc.assert(
    fc.property(code, code, (right, guess) => {
      fc.pre(right !== guess);
      expect(openedKey(sealedKey(GIVEN, right, NONCES), guess, NONCES)).toBeNull();
    }),
    { numRuns: runs(100) },
  );
});

test('what is sealed well but is no key is none', () => {
  const odd: object = { ...GIVEN, role: 'lifeguard' };
  expect(openedKey(sealedKey(odd as KeyGiven, CODE, NONCES), CODE, NONCES)).toBeNull();
});
