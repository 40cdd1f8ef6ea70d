/* A remote, a tablet or a page of this machine is let in by a code once, then by its key; all it says is sealed. */

import { describe, expect, test } from 'vitest';
import { THIS_MACHINE } from '../../../../app/host/sharing/doors/guest.ts';
import { JOINING_VERSION } from '../../../../app/wire/sharing/joining.ts';
import { proofOf } from '../../../../app/wire/sealing/proof.ts';
import { sealedEnd } from '../../../../app/wire/sealing/sealed-channel.ts';
import { ask, comeBack, doors, HOST, join, SCREENS_NONCE } from '../../../support/host/sharing/at-the-door.ts';

/** A phone that has joined by a code. */
async function joined(role: 'remote' | 'tablet' = 'remote') {
  const host = await doors();
  const phone = host.knock();
  return { ...host, phone, ...join(phone, host.book.showCode(role).letters)! };
}

const USED = { why: 'This address was used already, or is too old: it works once.', again: true };
const NOT_VALID = {
  why: 'This code has been used by another device, or is too old: ask the coach for a new one.',
  again: true,
};
const NOT_SHOWN = {
  why: 'That is not the code that the coach’s window shows now: look at it again, or ask for a new one.',
  again: true,
};
const HERE = { listener: 'machine', host: 'localhost:7525' } as const;
const NOT_LET_IN = { why: 'This device is not let in any more: ask the coach for a code.', again: true };

describe('a code', () => {
  test.each([
    ['remote', 'Remote 1'],
    ['tablet', 'Tablet 1'],
  ] as const)('lets a %s in, with the role that was chosen before, and gives it a key', async (role, name) => {
    const { book, phone, given } = await joined(role);
    expect(given).toMatchObject({ role, name, key: expect.stringMatching(/^[0-9a-f]{64}$/) as string });
    expect(phone.guest).toMatchObject({ role, name, device: given.id });
    expect(book.devices()).toEqual([{ id: given.id, role, name, since: 1_000_000 }]);
  });

  test('lets nobody in a second time', async () => {
    const { book, knock } = await doors();
    const { letters } = book.showCode('remote');
    join(knock(), letters);
    const second = knock();
    expect(join(second, letters)).toBeNull();
    expect([second.bye(), second.guest, book.devices().length]).toEqual([NOT_VALID, null, 1]);
  });

  test('photographed and used by two at once lets in the first alone', async () => {
    const { book, knock } = await doors();
    const { letters } = book.showCode('remote');
    const phones = [knock(), knock({ from: '192.168.1.66' })] as const;
    const nonces = phones.map((phone) => ask(phone)!);
    const proofs = nonces.map((each) => proofOf({ say: 'join', code: letters }, each, HOST));
    phones[1].say({ say: 'proof', mac: proofs[1]! });
    phones[0].say({ say: 'proof', mac: proofs[0]! });
    expect(phones.map(({ guest }) => guest?.name)).toEqual([undefined, 'Remote 1']);
    expect([phones[0].bye(), book.devices().length]).toEqual([NOT_VALID, 1]);
  });

  test.each([
    [119_999, true],
    [120_000, false],
  ])('after %i ms is valid: %s', async (late, isValid) => {
    const { book, clock, knock } = await doors();
    const { letters, until } = book.showCode('remote');
    expect(until).toBe(1_120_000);
    clock.advance(late);
    expect(join(knock(), letters) !== null).toBe(isValid);
    expect(book.code()).toBeNull();
  });

  test('that is late lets nobody in, though the timer that forgets it is late too', async () => {
    const { book, clock, knock } = await doors();
    const { letters } = book.showCode('remote');
    clock.stall(120_000);
    expect(join(knock(), letters)).toBeNull();
  });

  test('is void once its panel is closed, another is shown or sharing ends', async () => {
    const { book, knock } = await doors();
    const first = book.showCode('remote').letters;
    book.hideCode();
    expect([book.code(), join(knock(), first)]).toEqual([null, null]);
    const second = book.showCode('remote').letters;
    const third = book.showCode('tablet');
    expect([book.code(), join(knock(), second)]).toEqual([third, null]);
    await book.end();
    expect([book.code(), join(knock(), third.letters)]).toEqual([null, null]);
  });

  test('that is not the one shown now is said so, but not on this machine, where codes are not shown', async () => {
    const { book, knock } = await doors();
    const first = book.showCode('remote').letters;
    book.showCode('remote');
    book.claim('ten minutes');
    const said = [knock(), knock({ listener: 'machine' })].map((caller) => [join(caller, first), caller.bye()]);
    expect(said.flat()).toEqual([null, NOT_SHOWN, null, USED]);
  });

  test('is still valid after any number of wrong ones', async () => {
    const { book, knock } = await doors();
    const { letters } = book.showCode('remote');
    for (let n = 0; n < 100; n++) expect(join(knock(), `0123456789ABCDEFGH${n % 10}${n > 9 ? 'J' : 'K'}`)).toBeNull();
    expect(join(knock(), letters)).not.toBeNull();
  });

  test('that is shown on the network lets nobody in from this machine, nor a claim from the network', async () => {
    const { book, knock } = await doors();
    const { letters } = book.showCode('tablet');
    const claim = book.claim('ten minutes');
    expect(join(knock({ listener: 'machine' }), letters)).toBeNull();
    expect(join(knock(), claim)).toBeNull();
    expect(book.devices()).toEqual([]);
  });
});

describe('a claim', () => {
  test('lets one page of this machine in as the coach’s', async () => {
    const { book, knock } = await doors();
    const claim = book.claim('ten minutes');
    const page = knock(HERE);
    const { given } = join(page, claim)!;
    expect(page.guest).toMatchObject({ role: 'coach', name: 'Coach’s window 1', device: given.id });
    const late = knock(HERE);
    expect([join(late, claim), late.bye()]).toEqual([null, USED]);
    expect(comeBack(knock(HERE), given)).not.toBeNull();
  });

  test('is valid for ten minutes, or as long as sharing lasts', async () => {
    const { book, clock, knock } = await doors();
    const late = [book.claim('ten minutes'), book.claim('while sharing')] as const;
    clock.advance(599_999);
    expect(join(knock(HERE), book.claim('ten minutes'))).not.toBeNull();
    clock.advance(1);
    expect(late.map((claim) => join(knock(HERE), claim) !== null)).toEqual([false, true]);
    const printed = book.claim('while sharing');
    await book.end();
    expect(join(knock(HERE), printed)).toBeNull();
  });

  test('does not take the place of another: eight are valid at once, and with one more the oldest is void', async () => {
    const { book, knock } = await doors();
    const claims = Array.from({ length: 9 }, () => book.claim('ten minutes'));
    expect(claims.map((claim) => join(knock(HERE), claim) !== null).indexOf(true)).toBe(1);
  });
});

describe('a page of this machine without a key', () => {
  test('may be a wall screen, and no more than that', async () => {
    const { knock } = await doors();
    const wall = knock(HERE);
    const hello = '{"say":"hello","version":1,"screen":"wall"}';
    wall.send(hello);
    expect(wall.guest).toEqual({ role: 'wall', name: 'this machine', device: null });
    wall.send('{"say":"ping","n":0,"t1":0}');
    expect(wall.heardInside).toEqual([hello, '{"say":"ping","n":0,"t1":0}']);
    wall.tell('{"say":"pong"}');
    expect(wall.frames).toEqual(['{"say":"pong"}']);
  });

  test.each(['desk', 'remote'])('is not let in as a %s, and is told what to do', async (screen) => {
    const { knock } = await doors();
    const page = knock(HERE);
    page.send(JSON.stringify({ say: 'hello', version: 1, screen }));
    expect([page.guest, page.bye()]).toEqual([
      null,
      {
        why: 'While Lanecall is shared, a page here needs a key: open the address that was printed, or “Another window” in a page that has a key. With neither, end Lanecall and start it again: a run goes on.',
        again: true,
      },
    ]);
  });

  test('from the network is nobody, whatever it says hello as', async () => {
    const { knock } = await doors();
    for (const screen of ['wall', 'desk', 'remote']) {
      const page = knock();
      page.send(JSON.stringify({ say: 'hello', version: 1, screen }));
      expect([page.guest, page.closed]).toEqual([null, expect.any(String)]);
    }
  });

  test('gets a key where it switches sharing on, and comes back with it', async () => {
    const { book, knock } = await doors();
    const given = book.ownKey();
    if (typeof given === 'string') throw new Error(given);
    const page = knock(HERE);
    expect(comeBack(page, given)).not.toBeNull();
    expect(page.guest?.role).toBe(THIS_MACHINE.role);
  });

  test('gets none while eight of them are connected, and the coach reads what to do', async () => {
    const { book, knock } = await doors();
    for (let n = 0; n < 8; n++) {
      const given = book.ownKey();
      if (typeof given === 'string') throw new Error(given);
      comeBack(knock(HERE), given);
    }
    expect(book.ownKey()).toBe('Eight windows of the coach are open: close one of them.');
  });
});

describe('a key', () => {
  test('lets its device come back, as often as it likes, each time with a welcome that is sealed', async () => {
    const { knock, given, book } = await joined();
    for (let n = 0; n < 3; n++) {
      const phone = knock();
      const end = comeBack(phone, given)!;
      expect(phone.guest).toMatchObject({ role: 'remote', name: 'Remote 1', device: given.id });
      phone.send(end.seal('{"say":"hello"}'));
      expect(phone.heardInside).toEqual(['{"say":"hello"}']);
    }
    expect(book.devices().length).toBe(1);
  });

  test.each([
    ['thrown out', (host: Awaited<ReturnType<typeof joined>>) => host.book.throwOut(host.given.id)],
    ['ended', (host: Awaited<ReturnType<typeof joined>>) => host.book.end()],
    ['expired', (host: Awaited<ReturnType<typeof joined>>) => Promise.resolve(host.clock.advance(12 * 3_600_000))],
  ])('that is %s lets nobody in, and its connections are to end', async (how, end) => {
    const host = await joined();
    const ended: string[][] = [];
    host.book.onVoided((...voided) => ended.push(voided));
    await end(host);
    expect(ended).toEqual([[host.given.id, how]]);
    const phone = host.knock();
    expect([comeBack(phone, host.given), phone.bye(), phone.guest]).toEqual([null, NOT_LET_IN, null]);
  });

  test('that is nearly 12 hours old is valid', async () => {
    const { clock, knock, given } = await joined();
    clock.advance(12 * 3_600_000 - 1);
    expect(comeBack(knock(), given)).not.toBeNull();
  });

  test.each([
    ['key', (given: { id: string; key: string }) => ({ ...given, key: `${'ab'.repeat(32)}` })],
    ['id', (given: { id: string; key: string }) => ({ ...given, id: '0123456789abcdef' })],
  ])('with another %s lets nobody in', async (_, changed) => {
    const { knock, given } = await joined();
    const phone = knock();
    expect([comeBack(phone, changed(given)), phone.bye(), phone.guest]).toEqual([null, NOT_LET_IN, null]);
  });

  test('of a wall opens nothing here, nor does the hash of it that is kept', async () => {
    const { book, disk, knock } = await doors();
    const wall = knock({ socket: 'wall' });
    wall.say({ say: 'show', version: JOINING_VERSION });
    const shown = wall.last();
    book.letInWall(shown.say === 'digits' ? shown.digits : '');
    const last = wall.last();
    const key = last.say === 'let-in' ? last.key : '';
    await book.written();
    const { walls } = JSON.parse(disk.text('/data/walls.json')) as { walls: { id: string; hash: string }[] };
    expect(comeBack(knock(), { id: walls[0]!.id, key })).toBeNull();
    expect(comeBack(knock(), { id: walls[0]!.id, key: walls[0]!.hash })).toBeNull();
  });

  test('proved for one address opens nothing at another', async () => {
    const { knock, given } = await joined();
    const phone = knock({ host: '192.168.1.21:7525' });
    const nonces = ask(phone, given.id)!;
    phone.say({ say: 'proof', mac: proofOf({ say: 'return', ...given }, nonces, HOST) });
    expect([phone.bye(), phone.guest]).toEqual([NOT_LET_IN, null]);
  });

  test('proved once proves nothing on another connection: the host’s nonce is new', async () => {
    const { knock, given } = await joined();
    const first = knock();
    const nonces = ask(first, given.id)!;
    const mac = proofOf({ say: 'return', ...given }, nonces, HOST);
    first.say({ say: 'proof', mac });
    expect(first.guest).not.toBeNull();
    const second = knock();
    expect(ask(second, given.id)!.host).not.toBe(nonces.host);
    second.say({ say: 'proof', mac });
    expect(second.guest).toBeNull();
  });
});

describe('once inside', () => {
  test('all that is said is sealed, both ways', async () => {
    const { phone, end } = await joined();
    phone.send(end.seal('{"say":"hello"}'));
    expect(phone.heardInside).toEqual(['{"say":"hello"}']);
    phone.tell('{"say":"snapshot"}');
    const frame = phone.frames.at(-1)!;
    expect(frame).toBeInstanceOf(Uint8Array);
    expect(end.open(frame as Uint8Array)).toBe('{"say":"snapshot"}');
  });

  test.each<[string, (sealed: Uint8Array) => string | Uint8Array]>([
    ['a text', () => '{"say":"command","id":"a","command":{"do":"stop"}}'],
    ['a frame with a bit changed', (sealed) => sealed.map((byte, at) => (at === 3 ? byte ^ 1 : byte))],
    ['an empty frame', () => new Uint8Array()],
  ])('%s hangs up, and nothing after it is heard', async (_, made) => {
    const { phone, end } = await joined();
    phone.send(made(end.seal('{"say":"hello"}')));
    phone.send(end.seal('{"say":"hello"}'));
    expect([phone.closed, phone.heardInside]).toEqual(['A frame was not the next one of this device.', []]);
  });

  test('a frame heard twice hangs up', async () => {
    const { phone, end } = await joined();
    const frame = end.seal('{"say":"hello"}');
    phone.send(frame);
    phone.send(frame);
    expect([phone.heardInside.length, phone.closed]).toEqual([1, 'A frame was not the next one of this device.']);
  });

  test('a whole recorded session, played again, opens nothing', async () => {
    const { knock, given } = await joined();
    const phone = knock();
    const nonces = ask(phone, given.id)!;
    const mac = proofOf({ say: 'return', ...given }, nonces, HOST);
    phone.say({ say: 'proof', mac });
    const end = sealedEnd('screen', given.key, nonces);
    const stop = end.seal('{"say":"command","id":"a","command":{"do":"stop"}}');
    const replay = knock({ from: '192.168.1.66' });
    replay.say({ say: 'return', version: JOINING_VERSION, id: given.id, nonce: SCREENS_NONCE });
    replay.say({ say: 'proof', mac });
    replay.send(stop);
    expect([replay.guest, replay.heardInside]).toEqual([null, []]);
  });

  test('it goes by the name that the coach gives it meanwhile', async () => {
    const { book, phone, given } = await joined();
    expect(book.rename(given.id, 'Lifeguard')).toBeNull();
    expect(phone.guest?.name).toBe('Lifeguard');
  });
});

test.each<[string, readonly (string | Uint8Array)[]]>([
  ['a binary frame', [new Uint8Array(20)]],
  ['a proof before anything was asked', [JSON.stringify({ say: 'proof', mac: '00'.repeat(32) })]],
  ['a wall’s digits', ['{"say":"show","version":1}']],
  ['a wall’s key', [JSON.stringify({ say: 'look', version: 1, key: '00'.repeat(32) })]],
  [
    'two joinings',
    Array.from({ length: 2 }, () => JSON.stringify({ say: 'join', version: 1, nonce: '00'.repeat(16) })),
  ],
  ['no JSON', ['{']],
  ['a command', ['{"say":"command","id":"a","command":{"do":"stop"}}']],
  ['a short nonce', [JSON.stringify({ say: 'join', version: 1, nonce: '00'.repeat(15) })]],
])('%s is turned away', async (_, frames) => {
  const { knock } = await doors();
  const phone = knock();
  for (const frame of frames) phone.send(frame);
  expect([phone.guest, phone.bye()?.again]).toEqual([null, false]);
  expect(phone.closed).toBe(phone.bye()!.why);
});

test('what carries a screen’s messages is its connection, sealed or not', async () => {
  const { phone, knock } = await joined();
  const page = knock({ listener: 'machine', host: 'localhost:7525' });
  page.send('{"say":"hello","version":1,"screen":"wall"}');
  for (const { channel, frames } of [phone, page]) {
    expect([channel?.isOwnWindow, channel?.waiting()]).toEqual([false, frames.length]);
  }
  phone.channel?.close('Goodbye.');
  page.channel?.terminate();
  expect([phone.closed, page.closed]).toEqual(['Goodbye.', 'terminated']);
  const other = await joined();
  other.phone.channel?.terminate();
  expect(other.phone.closed).toBe('terminated');
});

test('a binary frame in place of the proof hangs up', async () => {
  const { knock } = await doors();
  const phone = knock();
  ask(phone);
  phone.send(new Uint8Array(32));
  expect([phone.guest, phone.closed]).toEqual([null, 'That was not what comes next at the door.']);
});

test('a page of another version is told so, with the host’s', async () => {
  const { knock } = await doors();
  const phone = knock();
  phone.send(JSON.stringify({ say: 'join', version: 2, nonce: SCREENS_NONCE }));
  expect(phone.last()).toEqual({ say: 'bye', why: 'This page is newer than the program: reload it.', version: 1 });
});

test('with 32 remotes connected, one more is told so; with one of them gone, it takes its place', async () => {
  const { book, clock, knock } = await doors();
  const phones = Array.from({ length: 32 }, () => {
    clock.advance(1000);
    const phone = knock();
    return { phone, given: join(phone, book.showCode('remote').letters)!.given };
  });
  const late = knock();
  expect(join(late, book.showCode('remote').letters)).toBeNull();
  // Its code is used up: it is to ask for another, under this sentence.
  const why = 'As many devices as there can be are connected: close one of them, then ask for a new code.';
  expect(late.bye()).toMatchObject({ why, again: true });
  phones[4]!.phone.leave();
  expect(join(knock(), book.showCode('remote').letters)).not.toBeNull();
  expect(comeBack(knock(), phones[4]!.given)).toBeNull();
  expect(book.devices().length).toBe(32);
});
