/* The addresses of the program's own pages, and what is none of them. */

import { expect, test } from 'vitest';
import { isPageOf, ownAddress, pageAddress, plainAddress } from '../../../app/desktop/windows/window-kind.ts';

test('[desktop] each window has its page under the program’s own scheme, and a plain one in its place', () => {
  expect([pageAddress('desk'), pageAddress('wall')]).toEqual(['app://lanecall/', 'app://lanecall/display']);
  expect(plainAddress('wall')).toBe('app://lanecall/stopped?window=wall');
});

test('[desktop] an address of ours is known with whatever stands behind its path', () => {
  expect(ownAddress('app://lanecall/display?lanes=1-3')?.searchParams.get('lanes')).toBe('1-3');
  expect(isPageOf('wall', 'app://lanecall/display?lanes=1-3')).toBe(true);
  expect(isPageOf('desk', 'app://lanecall/display')).toBe(false);
  expect(isPageOf('desk', 'https://lanecall/')).toBe(false);
});

test.each([
  '',
  'no address',
  'https://lanecall/',
  'app://elsewhere/',
  'app://user@lanecall/',
  'app://:word@lanecall/',
  'app://lanecall.example/',
])('[desktop] "%s" is none of ours', (address) => {
  expect(ownAddress(address)).toBeNull();
});
