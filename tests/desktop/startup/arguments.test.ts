/*
 * What the program was started with.
 */

import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { startArguments } from '../../../app/desktop/startup/arguments.ts';

describe('[start] the program reads its arguments', () => {
  const none = { session: null, lanes: null, data: null };
  test.each<[string, string[], boolean, object]>([
    ['packed, without any', ['/opt/lanecall'], false, none],
    [
      'packed, with a file',
      ['/opt/lanecall', 'a.lanecall'],
      false,
      { ...none, session: resolve('/home', 'a.lanecall') },
    ],
    ['from its folder', ['electron', '/clone'], true, none],
    [
      'with switches of the engine',
      ['electron', '--inspect=0', '--no-sandbox', '/clone', '--flag', 'a.txt'],
      true,
      { ...none, session: resolve('/home', 'a.txt') },
    ],
    [
      'with options',
      ['lanecall', '--data', 'd', '--lanes=l.txt', '/s.txt'],
      false,
      { session: resolve('/s.txt'), lanes: resolve('/home/l.txt'), data: resolve('/home/d') },
    ],
    [
      'packed, with the address of a file, as the desktops of Linux hand one over',
      ['/opt/lanecall', 'file:///home/a%20b.lanecall'],
      false,
      { ...none, session: '/home/a b.lanecall' },
    ],
    ['packed, with the address of a file elsewhere', ['/opt/lanecall', 'file://far/%zz'], false, none],
    ['with an option left open', ['lanecall', '--data'], false, none],
    ['with nothing at all', [], true, none],
    ['with switches alone', ['electron', '--inspect=0'], true, none],
    [
      'with a file that has the word in its name',
      ['lanecall', 'a file:b.txt'],
      false,
      { ...none, session: resolve('/home', 'a file:b.txt') },
    ],
  ])('%s', (_, argv, isDefaultApp, expected) => {
    expect(startArguments(argv, isDefaultApp, '/home')).toEqual(expected);
  });
});
