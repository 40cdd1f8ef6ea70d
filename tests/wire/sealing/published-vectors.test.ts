/* What the sealing is made of gives what the standards say, at the versions we have. */

import { chacha20poly1305 } from '@noble/ciphers/chacha.js';
import { bytesToHex, hexToBytes, utf8ToBytes } from '@noble/ciphers/utils.js';
import { hkdf } from '@noble/hashes/hkdf.js';
import { hmac } from '@noble/hashes/hmac.js';
import { sha256 } from '@noble/hashes/sha2.js';
import { expect, test } from 'vitest';

const range = (from: number, to: number): string =>
  Array.from({ length: to - from + 1 }, (_, n) => (from + n).toString(16).padStart(2, '0')).join('');

// Source: RFC 5869, appendix A, test cases 1 to 3: keying material, salt, info, length, result.
test.each([
  [
    '0b'.repeat(22),
    range(0x00, 0x0c),
    range(0xf0, 0xf9),
    42,
    '3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865',
  ],
  [
    range(0x00, 0x4f),
    range(0x60, 0xaf),
    range(0xb0, 0xff),
    82,
    'b11e398dc80327a1c8e7f78c596a49344f012eda2d4efad8a050cc4c19afa97c59045a99cac7827271cb41c65e590e09da3275600c2f09b8367793a9aca3db71cc30c58179ec3e87c14c01d5c1f3434f1d87',
  ],
  ['0b'.repeat(22), '', '', 42, '8da4e775a563c18f715f802a063c5a31b8a11f5c5ee1879ec3454e5f3c738d2d9d201395faa4b61a96c8'],
])('HKDF-SHA-256 of %s', (material, salt, info, length, result) => {
  expect(bytesToHex(hkdf(sha256, hexToBytes(material), hexToBytes(salt), hexToBytes(info), length))).toBe(result);
});

const hexOf = (text: string): string => bytesToHex(utf8ToBytes(text));

// Source: RFC 4231, section 4, test cases 1 to 4, 6 and 7: key, data, result.
test.each([
  ['0b'.repeat(20), hexOf('Hi There'), 'b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7'],
  [
    hexOf('Jefe'),
    hexOf('what do ya want for nothing?'),
    '5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843',
  ],
  ['aa'.repeat(20), 'dd'.repeat(50), '773ea91e36800e46854db8ebd09181a72959098b3ef8c122d9635514ced565fe'],
  [range(0x01, 0x19), 'cd'.repeat(50), '82558a389a443c0ea4cc819899f2083a85f0faa3e578f8077a2e3ff46729665b'],
  [
    'aa'.repeat(131),
    hexOf('Test Using Larger Than Block-Size Key - Hash Key First'),
    '60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54',
  ],
  [
    'aa'.repeat(131),
    hexOf(
      'This is a test using a larger than block-size key and a larger than block-size data. The key needs to be ' +
        'hashed before being used by the HMAC algorithm.',
    ),
    '9b09ffa71b942fcb27635fbcd5b0e944bfdc63644f0713938a7f51535c3a35e2',
  ],
])('HMAC-SHA-256 under %s', (key, data, result) => {
  expect(bytesToHex(hmac(sha256, hexToBytes(key), hexToBytes(data)))).toBe(result);
});

// Source: RFC 8439, section 2.8.2.
test('ChaCha20-Poly1305', () => {
  const text =
    "Ladies and Gentlemen of the class of '99: If I could offer you only one tip for the future, sunscreen would be it.";
  const cipher = () =>
    chacha20poly1305(
      hexToBytes(range(0x80, 0x9f)),
      hexToBytes('070000004041424344454647'),
      hexToBytes('50515253c0c1c2c3c4c5c6c7'),
    );
  const sealed =
    'd31a8d34648e60db7b86afbc53ef7ec2a4aded51296e08fea9e2b5a736ee62d63dbea45e8ca9671282fafb69da92728b1a71de0a9e060b29' +
    '05d6a5b67ecd3b3692ddbd7f2d778b8c9803aee328091b58fab324e4fad675945585808b4831d7bc3ff4def08e4b7a9de576d26586cec64b' +
    '61161ae10b594f09e26a7e902ecbd0600691';
  expect(bytesToHex(cipher().encrypt(utf8ToBytes(text)))).toBe(sealed);
  expect(bytesToHex(cipher().decrypt(hexToBytes(sealed)))).toBe(hexOf(text));
});
