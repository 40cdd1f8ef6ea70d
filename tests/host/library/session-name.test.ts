/* Names of sessions: what a file system takes, and a sentence for what none takes. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { freeName, nameFlaw, nameKey, nearestName, staysInFolder } from '../../../app/host/library/session-name.ts';

describe('[names] a session’s name', () => {
  test.each([
    'Thursday masters',
    'Größe 3 × 10',
    '木曜日の練習',
    'Sprint (2)',
    "Ana's 400, 26 Nov",
    'console',
    'Con 1',
    'Beacon',
    'x'.repeat(200),
    '👩🏽‍🏫 lessons',
  ])('may be %s', (name) => expect(nameFlaw(name)).toBeNull());

  test.each([
    ['   ', 'A session needs a name: write one.'],
    ['3/4 of base', 'A name cannot have / in it: file systems do not take it. Leave it out.'],
    ['19:30 squad', 'A name cannot have : in it: file systems do not take it. Leave it out.'],
    ['..\\..\\x', 'A name cannot have \\ in it: file systems do not take it. Leave it out.'],
    ['a\u0000b', 'The name has a character in it that cannot be seen: type it anew.'],
    ['a\u202eb', 'The name has a character in it that cannot be seen: type it anew.'],
    ['a\ud800', 'The name has a character in it that cannot be seen: type it anew.'],
    ['.hidden', 'A name cannot begin with a dot: such files are hidden.'],
    ['..', 'A name cannot begin with a dot: such files are hidden.'],
    ['Thursday.', 'A name cannot end with a dot: Windows takes it away.'],
    ['con', 'Windows keeps the name con for itself: add a word to it.'],
    ['Aux.old', 'Windows keeps the name Aux.old for itself: add a word to it.'],
    ['LPT1', 'Windows keeps the name LPT1 for itself: add a word to it.'],
    ['COM²', 'Windows keeps the name COM² for itself: add a word to it.'],
    ['x'.repeat(201), 'The name is too long for a file: make it shorter.'],
    ['木'.repeat(67), 'The name is too long for a file: make it shorter.'],
  ])('may not be %j, and a sentence says why', (name, why) => expect(nameFlaw(name)).toBe(why));

  test.each([
    ['Thursday: 3/4', 'Thursday 3 4'],
    ['  ../../etc/passwd ', 'etc passwd'],
    ['Thursday. . .', 'Thursday'],
    ['nul', 'Session nul'],
    ['???', 'Session'],
    ['x'.repeat(300), 'x'.repeat(200)],
  ])('nearest to %j is %j', (text, name) => expect(nearestName(text)).toBe(name));

  test('nearest to any text stays in its folder, with a number too', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
        const name = nearestName(text);
        const second = freeName(name, new Set([nameKey(name)]));
        for (const each of [name, second]) {
          expect(nameFlaw(each)).toBeNull();
          expect(staysInFolder(each)).toBe(true);
        }
        expect(second).not.toBe(name);
      }),
    );
  });

  test('has the same key as another that some file system takes for the same', () => {
    expect(nameKey('Größe')).toBe(nameKey('GRÖßE'.normalize('NFD')));
    expect(nameKey('Größe')).toBe(nameKey('GRÖSSE'));
    expect(nameKey('Tuesday')).not.toBe(nameKey('Thursday'));
  });

  test.each(['../x', 'a/b', 'a\\b', 'x:stream', '.x', '', 'a\0'])(
    '%j would leave its folder, or mean no file',
    (name) => expect(staysInFolder(name)).toBe(false),
  );
});
