/* Who is turned away at the sealed door after all: thrown out on the way in, on another page, late, or first of all with something else. */

import { expect, test } from 'vitest';
import { proofOf } from '../../../../app/wire/sealing/proof.ts';
import { ask, doors, HOST, join } from '../../../support/host/sharing/at-the-door.ts';

const HERE = { listener: 'machine', host: 'localhost:7525' } as const;

test('[sharing] a device that is thrown out between the question and its proof is not let in', async () => {
  const { book, knock } = await doors();
  const { given } = join(knock(), book.showCode('remote').letters)!;
  const phone = knock();
  const nonces = ask(phone, given.id)!;
  await book.throwOut(given.id);
  phone.say({ say: 'proof', mac: proofOf({ say: 'return', ...given }, nonces, HOST) });
  expect([phone.guest, phone.bye()?.again]).toEqual([null, true]);
});

test('[sharing] whoever was turned away is answered no more', async () => {
  const { knock } = await doors();
  const phone = knock();
  for (const frame of ['{', '{', new Uint8Array(20)]) phone.send(frame);
  expect(phone.said().map(({ say }) => say)).toEqual(['bye']);
});

test('[sharing] a page of this machine that begins with something else than a hello is not told of a key', async () => {
  const { knock } = await doors();
  const page = knock(HERE);
  page.send('{"say":"ping","n":0,"t1":0}');
  expect([page.guest, page.bye()]).toEqual([null, { why: expect.not.stringContaining('key'), again: false }]);
});

test.each([
  [
    'tablet',
    'remote',
    'This code is for a tablet: open http://192.168.1.20:7525/coach on the tablet, or ask the coach for a phone’s code.',
  ],
  [
    'remote',
    'tablet',
    'This code is for a phone: open http://192.168.1.20:7525/remote on the phone, or ask the coach for a tablet’s code.',
  ],
] as const)(
  '[sharing] a code for a %s is not used up on the page of a %s, which says what to do',
  async (role, page, why) => {
    const { book, knock } = await doors();
    const { letters } = book.showCode(role);
    const wrong = knock();
    expect([join(wrong, letters, page), wrong.bye(), book.devices()]).toEqual([null, { why, again: true }, []]);
    expect(join(knock(), letters, role)?.given.role).toBe(role);
  },
);
