/* A wall is let in by the digits that it shows, and from then on by its key; it gets nothing before. */

import { describe, expect, test } from 'vitest';
import { digitsOn, doors, look, show } from '../../../support/host/sharing/at-the-door.ts';

const AT_WALL = { socket: 'wall' } as const;

/** A wall that has been let in, with its key. */
async function letIn(given = doors()) {
  const host = await given;
  const wall = host.knock(AT_WALL);
  expect(host.book.letInWall(show(wall)!)).toBeNull();
  const last = wall.last();
  return { ...host, wall, key: last.say === 'let-in' ? last.key : '' };
}

describe('digits', () => {
  test('four of them are shown, for 120 s, and it may wait that long', async () => {
    const { book, knock } = await doors();
    const wall = knock(AT_WALL);
    const digits = show(wall);
    expect(digits).toMatch(/^\d{4}$/);
    expect(wall.said()).toEqual([{ say: 'digits', digits, left: 120_000 }]);
    expect(wall.lasts).toBe(125_000);
    expect([wall.guest, wall.closed, book.showing()]).toEqual([null, null, 1]);
  });

  test('typed in by the coach, they give that wall alone a key of 256 bits', async () => {
    const { book, knock } = await doors();
    const walls = [knock({ ...AT_WALL, from: '192.168.1.33' }), knock({ ...AT_WALL, from: '192.168.1.34' })] as const;
    const digits = walls.map(show);
    expect(book.letInWall(digits[1]!)).toBeNull();
    const last = walls[1].last();
    expect(last.say === 'let-in' && last.key).toMatch(/^[0-9a-f]{64}$/);
    expect(walls[1].guest).toMatchObject({ role: 'wall', name: 'Wall 1', device: book.devices()[0]!.id });
    expect([walls[0].guest, walls[0].said().length, book.showing()]).toEqual([null, 1, 1]);
  });

  test('that nobody shows let nobody in', async () => {
    const { book, knock } = await doors();
    const wall = knock(AT_WALL);
    const wrong = show(wall) === '0000' ? '0001' : '0000';
    expect(book.letInWall(wrong)).toBe(`No screen shows ${wrong} now: look at it again.`);
    expect([wall.guest, book.devices()]).toEqual([null, []]);
  });

  test('let one wall in, once', async () => {
    const { book, knock } = await doors();
    const wall = knock(AT_WALL);
    const digits = show(wall)!;
    expect([book.letInWall(digits), book.letInWall(digits)]).toEqual([null, expect.any(String)]);
    expect(book.devices().length).toBe(1);
  });

  test('are others after 120 s, without the wall asking, and the old ones let nobody in', async () => {
    const { book, clock, knock } = await doors();
    const wall = knock(AT_WALL);
    const first = show(wall)!;
    clock.advance(119_999);
    expect(digitsOn(wall)).toBe(first);
    wall.lasts = null;
    clock.advance(1);
    expect(digitsOn(wall)).not.toBe(first);
    expect(wall.lasts).toBe(125_000);
    expect(book.letInWall(first)).not.toBeNull();
    expect(book.letInWall(digitsOn(wall)!)).toBeNull();
  });

  test('are no two walls’ at once, wherever chance falls', async () => {
    const numbers = [7, 7, 7, 8, 8, 9];
    const chance = { bytes: (count: number) => new Uint8Array(count), below: () => numbers.shift()! };
    const { knock } = await doors({ chance });
    const digits = [33, 34, 35].map((n) => show(knock({ ...AT_WALL, from: `192.168.1.${n}` })));
    expect(digits).toEqual(['0007', '0008', '0009']);
  });

  test('of a wall that has gone let nobody in', async () => {
    const { book, clock, knock } = await doors();
    const wall = knock(AT_WALL);
    const digits = show(wall)!;
    wall.leave();
    expect([book.showing(), book.letInWall(digits)]).toEqual([0, expect.any(String)]);
    clock.advance(600_000);
    expect(wall.said().length).toBe(1);
  });

  test('are shown by one wall of an address: a later one waits until that is let in or gone', async () => {
    const { book, knock } = await doors();
    const wait = { why: 'Another screen at this address shows its digits: let that one in first.', again: false };
    const asksIn = { say: 'bye', why: wait.why, version: 1, wait: 120_000 };
    const first = knock(AT_WALL);
    const digits = show(first)!;
    const second = knock(AT_WALL);
    expect([show(second), second.bye(), second.closed]).toEqual([null, wait, wait.why]);
    expect(second.last()).toEqual(asksIn);
    expect([digitsOn(first), first.closed, book.showing()]).toEqual([digits, null, 1]);
    expect(book.letInWall(digits)).toBeNull();
    const third = knock(AT_WALL);
    expect(show(third)).toMatch(/^\d{4}$/);
    third.leave();
    expect(show(knock(AT_WALL))).toMatch(/^\d{4}$/);
  });

  test('are shown in turns of 120 s by walls of one address', async () => {
    const { book, clock, knock } = await doors();
    const first = knock(AT_WALL);
    show(first);
    clock.advance(119_999);
    expect(show(knock(AT_WALL))).toBeNull();
    clock.advance(1);
    expect(first.closed).toBeNull();
    const second = knock(AT_WALL);
    expect(show(second)).toMatch(/^\d{4}$/);
    expect(first.bye()?.why).toBe('Another screen at this address shows its digits: let that one in first.');
    clock.advance(119_999);
    expect(show(knock(AT_WALL))).toBeNull();
    expect([book.showing(), book.letInWall(digitsOn(second)!)]).toEqual([1, null]);
  });

  test('are shown by 64 at once, each for 120 s: one more is told when to ask, and then the oldest goes', async () => {
    const { book, clock, knock } = await doors();
    const walls = Array.from({ length: 64 }, (_, n) => knock({ ...AT_WALL, from: `192.168.1.${n}` }));
    walls.forEach(show);
    clock.advance(50_000);
    const late = knock({ ...AT_WALL, from: '192.168.2.1' });
    const why = 'Too many screens wait to be let in.';
    expect([show(late), late.last()]).toEqual([null, { say: 'bye', why, version: 1, wait: 70_000 }]);
    // Their new digits do not make them any younger.
    clock.advance(70_000);
    expect(walls.filter(({ closed }) => closed !== null)).toEqual([]);
    expect(show(knock({ ...AT_WALL, from: '192.168.2.1' }))).toMatch(/^\d{4}$/);
    expect(book.showing()).toBe(64);
    expect(walls.map(({ closed }) => closed !== null).indexOf(true)).toBe(0);
    expect(walls.filter(({ closed }) => closed !== null).length).toBe(1);
    // Those that have had their turn may be asked again at once, one after another.
    expect(walls[0]!.last()).toEqual({ say: 'bye', why, version: 1, wait: 0 });
  });

  test('a flood from any number of addresses takes them from nobody within 120 s, nor the turn of one in line', async () => {
    const { book, clock, knock } = await doors();
    const television = knock({ ...AT_WALL, from: '192.168.1.200' });
    const digits = show(television)!;
    const flood = (): void => {
      for (let n = 0; n < 200; n++) show(knock({ ...AT_WALL, from: `192.168.3.${n}` }));
    };
    flood();
    clock.advance(119_000);
    flood();
    expect([digitsOn(television), television.closed]).toEqual([digits, null]);
    // In the middle of a flood another television asks, and comes whenever it was told to.
    let again = knock({ ...AT_WALL, from: '192.168.1.201' });
    for (let turn = 0; show(again) === null; turn++) {
      expect(turn).toBeLessThan(10);
      const last = again.last();
      clock.advance(last.say === 'bye' ? last.wait! : 0);
      flood();
      again = knock({ ...AT_WALL, from: '192.168.1.201' });
    }
    expect(book.letInWall(digitsOn(again)!)).toBeNull();
  });
});

describe('a wall with its key', () => {
  test('is let in at once, as the same device', async () => {
    const { book, knock, key } = await letIn();
    const wall = knock(AT_WALL);
    expect(look(wall, key)).toBe(true);
    expect(wall.guest).toMatchObject({ role: 'wall', name: 'Wall 1', device: book.devices()[0]!.id });
    expect(book.devices().length).toBe(1);
  });

  test('is let in on another evening too', async () => {
    const { disk, book, key } = await letIn();
    await book.written();
    const next = await doors({ disk });
    expect(look(next.knock(AT_WALL), key)).toBe(true);
  });

  test('is let in after sharing has ended and begun again', async () => {
    const { book, knock, key } = await letIn();
    await book.end();
    expect(look(knock(AT_WALL), key)).toBe(true);
  });

  test('is turned away once thrown out, and is told to show digits', async () => {
    const { book, knock, key } = await letIn();
    await book.throwOut(book.devices()[0]!.id);
    const wall = knock(AT_WALL);
    expect(look(wall, key)).toBe(false);
    expect(wall.bye()).toEqual({
      why: 'This screen is not let in, or was thrown out: let it in again by its digits.',
      again: true,
    });
    expect([wall.guest, wall.closed]).toEqual([null, wall.bye()!.why]);
  });

  test.each([
    ['another key', 'ab'.repeat(32)],
    ['the hash that stands in the file', null],
  ])('is not let in with %s', async (_, other) => {
    const { book, disk, knock } = await letIn();
    await book.written();
    const hash = (JSON.parse(disk.text('/data/walls.json')) as { walls: { hash: string }[] }).walls[0]!.hash;
    expect(look(knock(AT_WALL), other ?? hash)).toBe(false);
  });
});

describe('once inside', () => {
  test('texts go through unchanged, both ways', async () => {
    const { wall } = await letIn();
    wall.send('{"say":"hello"}');
    expect(wall.heardInside).toEqual(['{"say":"hello"}']);
    wall.tell('{"say":"snapshot"}');
    expect(wall.frames.at(-1)).toBe('{"say":"snapshot"}');
  });

  test('a binary frame hangs up', async () => {
    const { wall } = await letIn();
    wall.send(new Uint8Array(20));
    expect(wall.closed).toBe('A message must be text.');
    wall.send('{"say":"hello"}');
    expect(wall.heardInside).toEqual([]);
  });
});

test.each<[string, string | Uint8Array]>([
  ['a binary frame', new Uint8Array(20)],
  ['no JSON', 'hello'],
  ['a hello', '{"say":"hello","version":1,"screen":"wall"}'],
  ['a command', '{"say":"command","id":"a","command":{"do":"stop"}}'],
  ['a joining', JSON.stringify({ say: 'join', version: 1, nonce: '00'.repeat(16) })],
  ['a return', JSON.stringify({ say: 'return', version: 1, id: '00'.repeat(8), nonce: '00'.repeat(16) })],
  ['a proof', JSON.stringify({ say: 'proof', mac: '00'.repeat(32) })],
  ['a show with more in it', '{"say":"show","version":1,"role":"coach"}'],
  ['a key that is too short', JSON.stringify({ say: 'look', version: 1, key: '00'.repeat(31) })],
])('%s is turned away', async (_, frame) => {
  const { book, knock } = await doors();
  const wall = knock(AT_WALL);
  wall.send(frame);
  expect([wall.guest, wall.bye()?.again, book.showing()]).toEqual([null, false, 0]);
  expect(wall.closed).not.toBeNull();
});

test('whatever a wall says while it shows its digits ends them', async () => {
  const { book, knock } = await doors();
  const wall = knock(AT_WALL);
  const digits = show(wall)!;
  wall.send('{"say":"hello","version":1,"screen":"wall"}');
  expect(wall.bye()?.why).toBe('A screen that shows its digits says nothing until it is let in.');
  expect([book.showing(), book.letInWall(digits)]).toEqual([0, expect.any(String)]);
});

test.each([
  [2, 'This page is newer than the program: reload it.'],
  [0, 'This page is older than the program: reload it.'],
])('a page of version %i is told so, with the host’s', async (version, why) => {
  const { knock } = await doors();
  const wall = knock(AT_WALL);
  wall.send(JSON.stringify({ say: 'glance', version }));
  expect(wall.last()).toEqual({ say: 'bye', why, version: 1 });
});

test('with 256 walls connected, one more is told so', async () => {
  const { book, knock } = await doors();
  for (let n = 0; n < 256; n++) book.letInWall(show(knock({ ...AT_WALL, from: `10.0.${n >> 7}.${n & 127}` }))!);
  const wall = knock({ ...AT_WALL, from: '10.9.9.9' });
  book.letInWall(show(wall)!);
  expect(wall.bye()?.why).toBe('All 256 screens that can be let in are connected: throw one out first.');
  expect(book.devices().length).toBe(256);
});
