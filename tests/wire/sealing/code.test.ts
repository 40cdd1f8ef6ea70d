/* A code of 100 random bits, as it is shown, scanned and typed. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CODE_LETTERS } from '../../../app/wire/sharing/joining.ts';
import { codeInGroups, codeOf, readCode } from '../../../app/wire/sealing/code.ts';
import { runs } from '../../support/run/runs.ts';

const random = fc.uint8Array({ minLength: 20, maxLength: 20 });

test('five bits of each byte make one letter', () => {
  expect(codeOf(Uint8Array.from({ length: 20 }, (_, n) => n))).toBe('0123456789ABCDEFGHJK');
  expect(codeOf(Uint8Array.from({ length: 20 }, (_, n) => 224 + 12 + n))).toBe('CDEFGHJKMNPQRSTVWXYZ');
  expect(new Set(Array.from({ length: 256 }, (_, n) => codeOf(new Uint8Array(20).fill(n)))).size).toBe(32);
});

test.each([0, 13, 19, 21])('%i bytes are no code', (length) => {
  expect(() => codeOf(new Uint8Array(length))).toThrow(RangeError);
});

test('a code is shown in four groups of five', () => {
  expect(codeInGroups('0123456789ABCDEFGHJK')).toBe('01234-56789-ABCDE-FGHJK');
});

test('whatever is shown is read back', () => {
  fc.assert(
    fc.property(random, (bytes) => {
      const code = codeOf(bytes);
      expect(readCode(code)).toBe(code);
      expect(readCode(codeInGroups(code))).toBe(code);
    }),
    { numRuns: runs(100) },
  );
});

test('small letters are read, O as 0, I and L as 1; spaces and dashes do not count', () => {
  expect(readCode(' oOil1-iLabc DEFGH\tjk--mnp ')).toBe('0011111ABCDEFGHJKMNP');
});

test.each([
  ['no letters', ''],
  ['19 letters', '0123456789ABCDEFGHJ'],
  ['21 letters', '0123456789ABCDEFGHJKM'],
  ['a U', 'U123456789ABCDEFGHJK'],
  ['a sign', '!123456789ABCDEFGHJK'],
  ['a letter that is two when small', '\u0130123456789ABCDEFGHJK'],
  ['a letter that is two when large', '\u00df23456789ABCDEFGHJK'],
])('%s: no code', (_, text) => {
  expect(readCode(text)).toBeNull();
});

test('one other letter is another code', () => {
  fc.assert(
    fc.property(random, fc.nat(19), fc.integer({ min: 1, max: 31 }), (bytes, at, by) => {
      const code = codeOf(bytes);
      const other = CODE_LETTERS.charAt((CODE_LETTERS.indexOf(code.charAt(at)) + by) % 32);
      expect(readCode(code.slice(0, at) + other + code.slice(at + 1))).not.toBe(code);
    }),
    { numRuns: runs(100) },
  );
});
