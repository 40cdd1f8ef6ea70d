/*
 * Letters as they are on a keyboard that has no others: `Zoe` for `Zoë`, `Soren` for `Søren`. Unicode takes the marks off
 * those that it makes of a letter and a mark; the others are here.
 */

const PLAIN: Readonly<Record<string, string>> = {
  ...{ Æ: 'AE', æ: 'ae', Œ: 'OE', œ: 'oe', ẞ: 'SS', ß: 'ss', Þ: 'Th', þ: 'th' },
  ...{ Ø: 'O', ø: 'o', Ł: 'L', ł: 'l', Đ: 'D', đ: 'd', Ð: 'D', ð: 'd' },
  ...{ Ħ: 'H', ħ: 'h', Ŧ: 'T', ŧ: 't', Ŋ: 'N', ŋ: 'n', Ə: 'A', ə: 'a', ı: 'i' },
  ...{ Ɓ: 'B', ɓ: 'b', Ɗ: 'D', ɗ: 'd', Ƙ: 'K', ƙ: 'k', Ƴ: 'Y', ƴ: 'y' },
};

const NOT_PLAIN = new RegExp(`[${Object.keys(PLAIN).join('')}]`, 'g');

/** One letter may become two, as in `ß`. */
export function plainLetters(words: string): string {
  return words
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(NOT_PLAIN, (letter) => PLAIN[letter]!);
}

const SPELLED_OUT: Readonly<Record<string, string>> = { ä: 'ae', ö: 'oe', ø: 'oe', ü: 'ue', å: 'aa' };

/** The other way to write some letters in plain ones: `Joerg` for `Jörg`, `Soeren` for `Søren`. */
export function spelledOut(words: string): string {
  return words.normalize('NFC').replace(/[äöøüå]/gi, (letter) => {
    const [first, second] = SPELLED_OUT[letter.toLowerCase()]!;
    return (letter === letter.toLowerCase() ? first! : first!.toUpperCase()) + second!;
  });
}
