// @vitest-environment happy-dom
/*
 * What the library and the squads say, for what is offered while a coach types.
 */

import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { AskLibrary } from '../../../../renderer/link/requests/library.ts';
import { createKnownBefore } from '../../../../renderer/desk/write/known-before.ts';

const TEXTS: { readonly [name: string]: string } = {
  'session Tuesday': 'Tuesday\nlane 1 css 1:20\nMain set\n4 x 50 back and free @ 0:55',
  'piece Kick ladder': 'Kick ladder\r\n100-200-100 kick @ base+15\r\n',
};

let asked: string[];

const ask = ((wish: { do: string; kind?: string; name?: string }) => {
  asked.push(wish.do);
  if (wish.do === 'list') {
    return Promise.resolve({
      ok: true,
      sessions: [{ name: 'Tuesday' }, { name: 'gone' }],
      pieces: [{ name: 'Kick ladder' }],
    });
  }
  const text = TEXTS[`${wish.kind} ${wish.name}`];
  return Promise.resolve(text === undefined ? { ok: false, why: 'gone' } : { ok: true, text });
}) as unknown as AskLibrary;

beforeEach(() => {
  asked = [];
  const squads = { ok: true, said: null, squads: [{ name: 'Harbour', lanes: ['lane 2 base 1:40, Ana, Bram'] }] };
  vi.stubGlobal('fetch', () => Promise.resolve({ status: 200, text: () => Promise.resolve(JSON.stringify(squads)) }));
});
afterEach(() => vi.unstubAllGlobals());

test('[completion] sessions, kept parts and squads are read when they are first wanted, and again after a while', async () => {
  let now = 0;
  const known = createKnownBefore(ask, () => now);
  expect(asked).toEqual([]);
  expect(known().on('words')).toEqual([]);
  await vi.waitFor(() => expect(known().on('lane 2')).toEqual(['lane 2 base 1:40, Ana, Bram']));
  expect(known().on('interval 50')).toEqual(['0:55']);
  expect(known().on('interval 100')).toEqual(['base+15']);
  expect(known().on('heading')).toEqual(['Main set']);
  const before = asked.length;
  now = 4 * 60_000;
  known();
  expect(asked).toHaveLength(before);
  now = 6 * 60_000;
  known();
  expect(asked.length).toBeGreaterThan(before);
});
