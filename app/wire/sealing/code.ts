/*
 * The code by which a remote or a tablet is let in: 100 random bits as 20 letters, which also fit in a QR code and can
 * be typed.
 */

import { CODE_LENGTH, CODE_LETTERS } from '../sharing/joining.ts';

/** How many letters stand together where a person reads them. */
const GROUP = 5;

/** How people write a letter that there is not. */
const TAKEN_FOR: Readonly<Record<string, string>> = { O: '0', I: '1', L: '1' };

/** Makes a code of `CODE_LENGTH` random bytes: five bits of each. */
export function codeOf(random: Uint8Array): string {
  if (random.length !== CODE_LENGTH) throw new RangeError(`A code is made of ${CODE_LENGTH} bytes.`);
  return Array.from(random, (byte) => CODE_LETTERS.charAt(byte % CODE_LETTERS.length)).join('');
}

/** The code in what somebody has typed or scanned; null if there is none. */
export function readCode(text: string): string | null {
  const large = text.replace(/[\s-]/g, '').replace(/[a-z]/g, (small) => small.toUpperCase());
  const letters = Array.from(large, (letter) => TAKEN_FOR[letter] ?? letter);
  return letters.length === CODE_LENGTH && letters.every((letter) => CODE_LETTERS.includes(letter))
    ? letters.join('')
    : null;
}

/** As a person reads it: `7K2QM-…`. */
export function codeInGroups(code: string): string {
  return code.match(new RegExp(`.{${GROUP}}`, 'g'))!.join('-');
}
