/* Texts without a swimmer's name: gone as a word, and the session is swum as before. */

import { describe, expect, test } from 'vitest';
import { namePattern } from '../../../../app/core/session/names/name-pattern.ts';
import { textWithoutName, wordsWithoutName } from '../../../../app/core/session/names/without-name.ts';
import { parseSession } from '../../../../app/core/session/parse.ts';

const without = (text: string, name: string): string => textWithoutName(text, namePattern(name)!);
const words = (text: string, name: string): string => wordsWithoutName(text, namePattern(name)!);

test('[names] in a lane a word for the place takes it, among other words `somebody` does', () => {
  const text = [
    'Zora’s evening',
    'lane 1 css 1:20, Zora, Bram  # Zora leads',
    'lane 2 Bram, Chidi, zora, gap 10',
    '',
    'For Zora',
    '4 x 50 free, Zora first @ 1:00 hold 0:40',
    'note: mind Zora',
    'talk 1:30 Zora shows the turn',
  ].join('\r\n');
  const changed = without(text, 'Zora');
  expect(changed.split('\r\n')).toEqual([
    'somebody’s evening',
    'lane 1 css 1:20, one, Bram  # somebody leads',
    'lane 2 Bram, Chidi, three, gap 10',
    '',
    'For somebody',
    '4 x 50 free, somebody first @ 1:00 hold 0:40',
    'note: mind somebody',
    'talk 1:30 somebody shows the turn',
  ]);
  const read = parseSession(changed, null);
  expect(read.ok && read.value.lanes.map(({ swimmers, gap }) => [swimmers, gap])).toEqual([
    [2, 5000],
    [3, 10_000],
  ]);
});

test('[names] what says how a line is read stays, though somebody is called so', () => {
  const text = 'Squad\nlane 1 Rest, Lane, Bram\n\nRest set\n4 x 50 Rest swims rest 15\n2 rounds\n  100 @ base\n';
  expect(without(text, 'Rest')).toBe(
    'Squad\nlane 1 one, Lane, Bram\n\nsomebody set\n4 x 50 Rest swims rest 15\n2 rounds\n  100 @ base\n'.replace(
      '4 x 50 Rest swims',
      '4 x 50 somebody swims',
    ),
  );
  expect(without(text, 'Lane')).toContain('lane 1 Rest, two, Bram');
  expect(without(text, 'Base')).toBe(text);
});

test('[names] a count of swimmers stays, though somebody is called so', () => {
  const changed = without('lane 1 Swimmers, Ana\nlane 2 5 swimmers, gap 10\n4 x 50 @ 1:00', 'Swimmers');
  expect(changed).toBe('lane 1 one, Ana\nlane 2 5 swimmers, gap 10\n4 x 50 @ 1:00');
});

test('[names] a lane with everybody of one name has a place for each, in words, as many as there are words for', () => {
  const lane = (places: readonly string[]): string => `  lane 1 ${places.join(', ')}`;
  expect(without(lane(Array<string>(21).fill('Zora')), 'Zora')).toBe(
    lane([
      ...[
        'one',
        'two',
        'three',
        'four',
        'five',
        'six',
        'seven',
        'eight',
        'nine',
        'ten',
        'eleven',
        'twelve',
        'thirteen',
      ],
      ...['fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen', 'twenty', 'N'],
    ]),
  );
});

test('[names] only a lane’s line has places: words of a name alone are somebody elsewhere', () => {
  expect(without('note: Zora\nkit: Zora\nMain\n4 x 50 lane swims, Zora @ 1:00', 'Zora')).toBe(
    'note: somebody\nkit: somebody\nMain\n4 x 50 lane swims, somebody @ 1:00',
  );
});

test('[names] a name goes from a line that cannot be read too', () => {
  expect(without('Main\ntalk Zora\n4 x 50 with Zora @ 1:0x', 'Zora')).toBe(
    'Main\ntalk somebody\n4 x 50 with somebody @ 1:0x',
  );
});

test('[names] a name behind an odd line end within a line goes too, and the line end stays', () => {
  expect(without('note: one\rtwo Zora\r\nnote: three', 'Zora')).toBe('note: one\rtwo somebody\r\nnote: three');
});

test('[names] a pattern says whether a name stands among words', () => {
  const { isIn } = namePattern('Zora')!;
  expect(['with Zora', 'with Zoran'].map(isIn)).toEqual([true, false]);
});

describe('[names] it is found', () => {
  test.each([
    ['Zora', 'zora, ZORA and Zora', 'somebody, somebody and somebody'],
    ['Zora', 'Zoran, Alzora, Zora2', 'Zoran, Alzora, Zora2'],
    ['Zora', 'Zora-Mae and Mae-Zora are others; zora-like', 'Zora-Mae and Mae-Zora are others; somebody-like'],
    ['Zora', 'Zora and Mae-Lee', 'somebody and Mae-Lee'],
    ['Zora', 'Post-zora Swim', 'Post-somebody Swim'],
    ['  Zora ', 'Zora first', 'somebody first'],
    ['J B', 'J B and j b', 'somebody and j b'],
    ['Zora  Lima', 'Zora Lima, Zora\tLima, Zora', 'somebody, somebody, Zora'],
    ['Zoé', 'Zoé, Zoe\u0301', 'somebody, somebody'],
    ['Zoe', 'Zoe\u0301', 'Zoe\u0301'],
    ['Zora-Mae', 'Zora-Mae, Zora, zora-mae', 'somebody, Zora, somebody'],
    ['A', 'A had a cramp', 'somebody had a cramp'],
    ['Z. (K)', 'Z. (K) and ZZ (K)', 'somebody and ZZ (K)'],
    ['张伟', '张伟 first', 'somebody first'],
  ])('%s in %j', (name, text, expected) => expect(words(text, name)).toBe(expected));

  test.each(['', '  ', '12', '$&'])('never: %j is no name', (name) => expect(namePattern(name)).toBeNull());
});

test('[names] no line gets longer than can be read, and no words longer than may be', () => {
  const names = Array.from({ length: 20 }, () => 'Jo').join(', ');
  const line = `lane 1 ${names} # ${'Jo '.repeat(140)}`;
  expect(line.length).toBeLessThanOrEqual(510);
  const [changed] = without(line.slice(0, 500), 'Jo').split('\n');
  expect(changed!.length).toBeLessThanOrEqual(500);
  expect(changed).not.toMatch(/\bJo\b/);
  expect(wordsWithoutName('Jo Jo', namePattern('Jo')!, 10)).toBe('N N');
});

test('[names] up to the longest that may be, the word for somebody is written out', () => {
  const longest = 'somebody somebody'.length;
  expect(wordsWithoutName('Jo Jo', namePattern('Jo')!, longest)).toBe('somebody somebody');
  expect(wordsWithoutName('Jo Jo', namePattern('Jo')!, longest - 1)).toBe('N N');
  const note = (length: number): string => without(`note: Jo ${'x'.repeat(length - 'note: somebody '.length)}`, 'Jo');
  expect(note(500)).toMatch(/^note: somebody x+$/);
  expect(note(501)).toMatch(/^note: N x+$/);
});
