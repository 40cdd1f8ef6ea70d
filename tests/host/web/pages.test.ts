/* Which files of a build are pages, under which paths, and what each is said to be. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readPages } from '../../../app/host/web/pages.ts';
import { freshDataFolder } from '../../support/host/folders/data-folder.ts';

test('[server] without a build there are no pages and no fault', () => {
  expect(readPages(join(freshDataFolder(), 'pages')).size).toBe(0);
});

test('[server] the three pages have their own paths and are not cached', () => {
  const folder = freshDataFolder();
  for (const name of ['desk', 'wall', 'remote']) {
    mkdirSync(join(folder, name));
    writeFileSync(join(folder, name, 'index.html'), name);
  }
  const page = (name: string) => ({ body: Buffer.from(name), type: 'text/html; charset=utf-8', lasting: false });
  expect([...readPages(folder)]).toEqual([
    ['/', page('desk')],
    ['/display', page('wall')],
    ['/remote', page('remote')],
  ]);
});

test('[server] the licences are a page of their own that is not cached', () => {
  const dist = freshDataFolder();
  writeFileSync(join(dist, 'THIRD-PARTY.txt'), 'MIT');
  expect([...readPages(join(dist, 'pages'))]).toEqual([
    ['/licences', { body: Buffer.from('MIT'), type: 'text/plain; charset=utf-8', lasting: false }],
  ]);
});

test('[server] what a phone asks for that puts the remote on its home screen has names that stay, and is not cached', () => {
  const folder = freshDataFolder();
  mkdirSync(join(folder, 'home'));
  writeFileSync(join(folder, 'home', 'icon-180.png'), 'x');
  expect([...readPages(folder)]).toEqual([
    ['/home/icon-180.png', { body: Buffer.from('x'), type: 'image/png', lasting: false }],
  ]);
});

test.each([
  ['html', 'text/html; charset=utf-8'],
  ['js', 'text/javascript; charset=utf-8'],
  ['css', 'text/css; charset=utf-8'],
  ['json', 'application/json; charset=utf-8'],
  ['svg', 'image/svg+xml'],
  ['png', 'image/png'],
  ['ico', 'image/x-icon'],
  ['woff2', 'font/woff2'],
  ['woff', 'font/woff'],
  ['wav', 'audio/wav'],
  ['txt', 'text/plain; charset=utf-8'],
  ['webmanifest', 'application/manifest+json; charset=utf-8'],
  ['bin', 'application/octet-stream'],
])('[server] a file .%s with a hash in its name is %s, cached for ever', (ending, type) => {
  const folder = freshDataFolder();
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'assets', `a.b-1c2d.${ending}`), 'x');
  expect([...readPages(folder)]).toEqual([
    [`/assets/a.b-1c2d.${ending}`, { body: Buffer.from('x'), type, lasting: true }],
  ]);
});
