/* What happened at the door is kept for 30 days, and stays small however many knock. */

import { describe, expect, test } from 'vitest';
import { Visitors } from '../../../../app/host/sharing/doors/visitors.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { comeBack, doors, join, show } from '../../../support/host/sharing/at-the-door.ts';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';

const FILE = '/data/visitors.jsonl';
const DAY = 86_400_000;
const REFUSED = { what: 'refused', from: '192.168.1.66', why: 'This code is not valid.' } as const;

function visitors({ disk = new FakeDisk(), clock = new FakeClock() } = {}) {
  const told: (string | null)[] = [];
  const mine = { is: true };
  const check = (): Promise<void> => (mine.is ? Promise.resolve() : Promise.reject(new Error('taken')));
  const ports = { disk, folder: '/data', guard: { check, checkNow: () => undefined }, clock };
  const log = new Visitors({ ...ports, tell: (sentence) => told.push(sentence) });
  const lines = async (): Promise<readonly Record<string, unknown>[]> => {
    await log.written();
    const text = disk.files.has(FILE) ? disk.text(FILE) : '';
    return text
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
  };
  return { log, disk, clock, told, mine, lines };
}

test('each is a line with its time, added to those before', async () => {
  const { log, lines, disk, clock } = visitors();
  log.note({ what: 'sharing on', address: '192.168.1.20' });
  await log.written();
  clock.advance(1000);
  log.note({ what: 'let in', role: 'remote', name: 'Remote 1', from: '192.168.1.33' });
  log.note({ what: 'sharing off' });
  expect(await lines()).toEqual([
    { at: '1970-01-01T19:30:00.000Z', what: 'sharing on', address: '192.168.1.20' },
    { at: '1970-01-01T19:30:01.000Z', what: 'let in', role: 'remote', name: 'Remote 1', from: '192.168.1.33' },
    { at: '1970-01-01T19:30:01.000Z', what: 'sharing off' },
  ]);
  expect(disk.openFiles).toBe(0);
});

test('a host at whose door nothing happens writes nothing', async () => {
  const { log, disk } = visitors();
  await log.written();
  expect(disk.files.size).toBe(0);
});

describe('refusals', () => {
  test('are listed once a second; those between are counted on the next line', async () => {
    const { log, lines, clock } = visitors();
    log.note(REFUSED);
    for (let n = 0; n < 999; n++) {
      clock.advance(1);
      log.note(REFUSED);
    }
    clock.advance(1);
    log.note(REFUSED);
    log.note(REFUSED);
    log.note({ what: 'sharing off' });
    clock.advance(1000);
    log.note(REFUSED);
    const listed = (await lines()).map(({ what, refusedBefore }) => [what, refusedBefore]);
    expect(listed).toEqual([
      ['refused', undefined],
      ['refused', 999],
      ['sharing off', 1],
      ['refused', undefined],
    ]);
  });

  test('of a whole month of flood keep the file below 4 MiB and a line; who was let in is still noted', async () => {
    const { log, lines, disk, clock } = visitors();
    const long = { ...REFUSED, why: 'x'.repeat(200_000) };
    for (let n = 0; n < 40; n++) {
      clock.advance(1000);
      log.note(long);
      await log.written();
    }
    const { length } = disk.files.get(FILE)!;
    expect(length).toBeGreaterThan(4 * 1024 * 1024);
    expect(length).toBeLessThan(4 * 1024 * 1024 + 201_000);
    log.note({ what: 'let in', role: 'wall', name: 'Wall 1' });
    const all = await lines();
    expect(all.at(-1)).toMatchObject({ what: 'let in', refusedBefore: 40 - (all.length - 1) });
  });
});

describe('at the start', () => {
  const line = (daysAgo: number, what = 'sharing off'): string =>
    `${JSON.stringify({ at: new Date(19.5 * 3_600_000 - daysAgo * DAY).toISOString(), what })}\n`;

  test('what is older than 30 days goes, and what is no line', async () => {
    const disk = new FakeDisk();
    const text = [line(31), line(30.001), line(30), line(1), '{"at":"never"}\n', 'torn\n', '{"at":5}\n', line(0)];
    disk.put(FILE, Buffer.from(text.join('')));
    const { lines } = visitors({ disk });
    await lines();
    expect(disk.text(FILE)).toBe([line(30), line(1), line(0)].join(''));
  });

  test('a file in which nothing is old is not written', async () => {
    const disk = new FakeDisk();
    disk.put(FILE, Buffer.from(line(29) + line(0)));
    const bytes = disk.files.get(FILE);
    const { lines } = visitors({ disk });
    expect((await lines()).length).toBe(2);
    expect(disk.files.get(FILE)).toBe(bytes);
  });

  test('of a file that has grown too long the latest 4 MiB stay', async () => {
    const disk = new FakeDisk();
    const many = Array.from({ length: 1_200 }, (_, n) => line(1, `${n} ${'x'.repeat(4000)}`));
    disk.put(FILE, Buffer.from(many.join('')));
    const { log, lines, clock } = visitors({ disk });
    const kept = await lines();
    expect(disk.files.get(FILE)!.length).toBeLessThanOrEqual(4 * 1024 * 1024);
    expect(kept.at(-1)!['what']).toContain('1199 ');
    expect(kept.length).toBeGreaterThan(1000);
    clock.advance(1000);
    log.note(REFUSED);
    expect((await lines()).at(-1)).toMatchObject(REFUSED);
  });

  test('what comes meanwhile is noted after what stays', async () => {
    const disk = new FakeDisk();
    disk.put(FILE, Buffer.from(line(31) + line(1)));
    const { log, lines } = visitors({ disk });
    log.note({ what: 'sharing off' });
    expect((await lines()).length).toBe(2);
  });
});

describe('while the host runs', () => {
  const off = { what: 'sharing off' } as const;
  const on = (address: string) => ({ what: 'sharing on', address }) as const;

  test('what gets older than 30 days goes once a day, when a line is written', async () => {
    const disk = new FakeDisk();
    const clock = new FakeClock();
    disk.put(FILE, Buffer.from(`${JSON.stringify({ at: new Date(clock.wall().epochMs - 29.5 * DAY), ...off })}\n`));
    const { log, lines } = visitors({ disk, clock });
    log.note(on('first'));
    expect((await lines()).length).toBe(2);
    clock.advance(0.9 * DAY);
    log.note(on('second'));
    expect((await lines()).length).toBe(3);
    clock.advance(0.2 * DAY);
    log.note(on('third'));
    expect((await lines()).map(({ address }) => address)).toEqual(['first', 'second', 'third']);
    clock.advance(29.5 * DAY);
    log.note(off);
    expect((await lines()).map(({ address }) => address)).toEqual(['second', 'third', undefined]);
  });

  test('a line is not lost because the file has grown too long', async () => {
    const { log, lines, clock } = visitors();
    log.note(off);
    for (let n = 0; n < 25; n++) {
      clock.advance(1000);
      log.note({ ...REFUSED, why: 'x'.repeat(200_000) });
      await log.written();
    }
    clock.advance(1.1 * DAY);
    log.note(off);
    expect((await lines())[0]).toMatchObject(off);
  });

  test.each([
    ['forward', [400]],
    ['back', [-400]],
    ['forward and back again', [400, 0]],
    ['back and forward again', [-400, 0]],
  ])('a clock that is set %s loses nothing that is younger', async (_, steps) => {
    const disk = new FakeDisk();
    const clock = new FakeClock();
    const right = clock.wall().epochMs - clock.now();
    disk.put(FILE, Buffer.from(`${JSON.stringify({ at: new Date(clock.wall().epochMs - DAY), ...on('before') })}\n`));
    const { log, lines } = visitors({ disk, clock });
    for (const days of [0, ...steps]) {
      clock.setWall(right + clock.now() + days * DAY);
      log.note(on(`at ${days}`));
      await log.written();
      clock.advance(2 * DAY);
      log.note(on('later'));
      await log.written();
    }
    const kept = (await lines()).map(({ address }) => address);
    expect(kept).toEqual(['before', ...[0, ...steps].flatMap((days) => [`at ${days}`, 'later'])]);
    clock.advance(31 * DAY);
    log.note(off);
    expect((await lines()).filter(({ address }) => address !== 'before')).toHaveLength(1);
  });
});

test('a disk that refuses is told of until it does not, and nothing else stops', async () => {
  const { log, lines, disk, told, mine } = visitors();
  disk.refuses = 'ENOSPC';
  log.note({ what: 'sharing off' });
  await log.written();
  expect(told.at(-1)).toBe(`Who is let in cannot be noted in ${FILE} (the disk is full): sharing goes on without.`);
  disk.refuses = null;
  mine.is = false;
  log.note({ what: 'sharing off' });
  await log.written();
  expect(told.at(-1)).toContain('(taken)');
  mine.is = true;
  log.note({ what: 'sharing off' });
  expect((await lines()).length).toBe(1);
  expect(told.at(-1)).toBeNull();
});

test('the doors note who is let in, thrown out and refused, by name and address', async () => {
  const { book, clock, disk, knock } = await doors();
  const wall = knock({ socket: 'wall', from: '192.168.1.50' });
  book.letInWall(show(wall)!);
  const { given } = join(knock(), book.showCode('remote').letters)!;
  await book.throwOut(given.id);
  expect(await book.throwOut(given.id)).not.toBeNull();
  expect(comeBack(knock({ from: '192.168.1.66' }), given)).toBeNull();
  clock.advance(1000);
  wall.send(new Uint8Array(3));
  await book.written();
  const at = '1970-01-01T19:30:00.000Z';
  expect(
    disk
      .text(FILE)
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as unknown),
  ).toEqual([
    { at, what: 'let in', role: 'wall', name: 'Wall 1', from: '192.168.1.50' },
    { at, what: 'let in', role: 'remote', name: 'Remote 1', from: '192.168.1.33' },
    { at, what: 'thrown out', role: 'remote', name: 'Remote 1' },
    {
      at,
      what: 'refused',
      from: '192.168.1.66',
      why: 'This device is not let in any more: ask the coach for a code.',
    },
    { at: '1970-01-01T19:30:01.000Z', what: 'refused', from: '192.168.1.50', why: 'A message must be text.' },
  ]);
});
