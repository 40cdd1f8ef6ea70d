/* The devices that were let in: their names, and what is kept of them through the end of a process. */

import { createHash } from 'node:crypto';
import { mkdtempSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join as path } from 'node:path';
import { describe, expect, test } from 'vitest';
import { systemDisk } from '../../../../app/host/journal/disk.ts';
import { openDoorBook } from '../../../../app/host/sharing/door-book.ts';
import { systemTimers } from '../../../../app/host/time/timers.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';
import { comeBack, doors, join, look, show } from '../../../support/host/sharing/at-the-door.ts';
import { FakeDisk } from '../../../support/host/folders/fake-disk.ts';

type Doors = Awaited<ReturnType<typeof doors>>;

function joined({ book, knock }: Pick<Doors, 'book' | 'knock'>, role: 'remote' | 'tablet' = 'remote') {
  const caller = knock();
  return { caller, ...join(caller, book.showCode(role).letters)! };
}

function wall({ book, knock }: Pick<Doors, 'book' | 'knock'>, from = '192.168.1.50') {
  const caller = knock({ socket: 'wall', from });
  book.letInWall(show(caller)!);
  const last = caller.last();
  return { caller, key: last.say === 'let-in' ? last.key : '' };
}

const names = ({ book }: Doors): readonly string[] => book.devices().map(({ name }) => name);

describe('names', () => {
  test('are the role with the first number that is free', async () => {
    const host = await doors();
    const first = joined(host);
    joined(host);
    joined(host, 'tablet');
    wall(host);
    expect(names(host)).toEqual(['Remote 1', 'Remote 2', 'Tablet 1', 'Wall 1']);
    await host.book.throwOut(first.given.id);
    joined(host);
    expect(names(host)).toEqual(['Remote 2', 'Tablet 1', 'Wall 1', 'Remote 1']);
  });

  test('are given by the coach, one for each device', async () => {
    const host = await doors();
    const { given } = joined(host);
    const other = joined(host).given;
    expect(host.book.rename(given.id, '  Far   end ')).toBeNull();
    expect(host.book.rename(other.id, 'Far end')).toBe('There is a device “Far end” already: choose another name.');
    expect(host.book.rename(given.id, 'Far end')).toBeNull();
    expect(host.book.rename(given.id, ' ')).toBe('A name has 1 to 40 letters.');
    expect(host.book.rename(given.id, 'x'.repeat(41))).toBe('A name has 1 to 40 letters.');
    expect(names(host)).toEqual(['Far end', 'Remote 2']);
    joined(host);
    expect(names(host)).toEqual(['Far end', 'Remote 2', 'Remote 1']);
  });

  test('of a device that is gone are given to none', async () => {
    const { book } = await doors();
    expect(book.rename('0123456789abcdef', 'Far end')).toBe('This device has been thrown out already.');
    expect(await book.throwOut('0123456789abcdef')).toBe('This device has been thrown out already.');
  });
});

test('with eight tablets let in, the one not connected for longest makes room for a ninth, whoever else there is', async () => {
  const host = await doors();
  const tablets = [];
  for (let n = 0; n < 8; n++) {
    const { caller, given } = joined(host, 'tablet');
    joined(host).caller.leave();
    caller.leave();
    tablets.push(given);
    host.clock.advance(3_600_000);
  }
  const again = host.knock();
  comeBack(again, tablets[0]!);
  again.leave();
  joined(host, 'tablet');
  const stands = tablets.map((given) => comeBack(host.knock(), given) !== null);
  expect(stands).toEqual([true, false, true, true, true, true, true, true]);
  expect(host.book.devices().filter(({ role }) => role === 'remote').length).toBe(8);
});

test('a wall is let in by its own key alone, on other evenings too, until it is thrown out', async () => {
  const host = await doors();
  const [first, second] = [wall(host), wall(host, '192.168.1.51')];
  const remote = joined(host);
  const isLetIn = (key: string): boolean => look(host.knock({ socket: 'wall' }), key);
  await host.book.end();
  host.clock.advance(13 * 3_600_000);
  expect([first.key, second.key].map(isLetIn)).toEqual([true, true]);
  expect([remote.given.key, 'ab'.repeat(32)].map(isLetIn)).toEqual([false, false]);
  await host.book.throwOut(host.book.devices()[0]!.id);
  expect([first.key, second.key].map(isLetIn)).toEqual([false, true]);
});

test('each key lasts its own twelve hours', async () => {
  const host = await doors();
  joined(host);
  host.clock.advance(3_600_000);
  joined(host);
  host.clock.advance(11 * 3_600_000);
  expect(names(host)).toEqual(['Remote 2']);
  host.clock.advance(3_600_000);
  expect(names(host)).toEqual([]);
});

test('a key does not outlast its twelve hours because the machine slept through their end', async () => {
  const host = await doors();
  const { given } = joined(host);
  const voided: string[] = [];
  host.book.onVoided((device, how) => voided.push(`${device === given.id} ${how}`));
  host.clock.advance(3_600_000);
  host.clock.sleep(12 * 3_600_000);
  // Nobody has looked at the clock yet.
  expect(comeBack(host.knock(), given)).toBeNull();
  host.clock.check();
  expect([voided, host.book.devices()]).toEqual([['true expired'], []]);
});

describe('whoever listens', () => {
  test('hears of every change, and no more once it has stopped', async () => {
    const host = await doors();
    let heard = 0;
    const stop = host.book.onChange(() => heard++);
    const heardOf = async (act: () => unknown): Promise<boolean> => {
      const before = heard;
      await act();
      return heard > before;
    };
    const { given } = joined(host);
    expect(heard).toBeGreaterThan(0);
    const caller = host.knock({ socket: 'wall' });
    const all = [
      () => show(caller),
      () => caller.leave(),
      () => wall(host),
      () => host.book.showCode('remote'),
      () => host.book.hideCode(),
      () => host.book.rename(given.id, 'Far end'),
      () => host.book.throwOut(given.id),
      () => host.book.showCode('tablet'),
      () => host.clock.advance(120_000),
      () => joined(host),
      () => host.clock.advance(12 * 3_600_000),
    ];
    for (const act of all) expect([act.toString(), await heardOf(act)]).toEqual([act.toString(), true]);
    stop();
    expect(await heardOf(() => host.book.showCode('remote'))).toBe(false);
  });

  test('for devices thrown out hears of each, once', async () => {
    const host = await doors();
    const thrown: [device: string, how: string][] = [];
    const stop = host.book.onVoided((...voided) => thrown.push(voided));
    const { given } = joined(host);
    wall(host);
    const onWall = host.book.devices()[1]!.id;
    await host.book.throwOut(onWall);
    await host.book.end();
    await host.book.end();
    expect(thrown).toEqual([
      [onWall, 'thrown out'],
      [given.id, 'ended'],
    ]);
    stop();
    await host.book.throwOut(joined(host).given.id);
    expect(thrown.length).toBe(2);
  });
});

describe('the files', () => {
  test('are plain JSON: of a wall there is no key, only its hash', async () => {
    const host = await doors();
    const { given } = joined(host);
    const { key } = wall(host);
    await host.book.written();
    const seen = host.clock.wall().epochMs;
    const [remote, onWall] = host.book.devices();
    expect(JSON.parse(host.disk.text('/data/walls.json'))).toEqual({
      version: 1,
      walls: [{ id: onWall!.id, name: 'Wall 1', hash: createHash('sha256').update(key).digest('hex'), seen }],
    });
    expect(host.disk.text('/data/walls.json')).not.toContain(key);
    expect(JSON.parse(host.disk.text('/data/keys.json'))).toEqual({
      version: 1,
      keys: [{ id: remote!.id, role: 'remote', name: 'Remote 1', key: given.key, seen, until: seen + 12 * 3_600_000 }],
    });
  });

  test('can be read and written by this user alone', async () => {
    const folder = mkdtempSync(path(tmpdir(), 'lanecall-devices-'));
    const clock = new FakeClock();
    const tell = { devices: () => undefined, visitors: () => undefined };
    const guard = { check: () => Promise.resolve(), checkNow: () => undefined };
    const book = await openDoorBook({ disk: systemDisk, folder, guard, clock, timers: systemTimers, tell });
    book.ownKey();
    book.visitors.note({ what: 'sharing off' });
    await book.written();
    const modes = ['keys.json', 'visitors.jsonl'].map((file) => statSync(path(folder, file)).mode & 0o777);
    expect(modes).toEqual([0o600, 0o600]);
    await book.end();
  });

  test('let the next process know everybody, by name and role', async () => {
    const host = await doors();
    const remote = joined(host);
    joined(host, 'tablet');
    const onWall = wall(host);
    host.book.rename(remote.given.id, 'Far end');
    await host.book.written();
    const next = await doors({ disk: host.disk });
    expect([...next.book.devices()].sort((a, b) => a.role.localeCompare(b.role))).toEqual([
      { id: remote.given.id, role: 'remote', name: 'Far end', since: null },
      { id: expect.any(String) as string, role: 'tablet', name: 'Tablet 1', since: null },
      { id: expect.any(String) as string, role: 'wall', name: 'Wall 1', since: null },
    ]);
    expect(comeBack(next.knock(), remote.given)).not.toBeNull();
    expect(look(next.knock({ socket: 'wall' }), onWall.key)).toBe(true);
  });

  test('keep out whoever was thrown out, as soon as the coach is told so, through a kill and a power cut', async () => {
    const host = await doors();
    const remote = joined(host);
    const onWall = wall(host);
    await host.book.written();
    for (const { id } of host.book.devices()) expect(await host.book.throwOut(id)).toBeNull();
    const next = await doors({ disk: copyOf(host.disk) });
    expect(comeBack(next.knock(), remote.given)).toBeNull();
    expect(look(next.knock({ socket: 'wall' }), onWall.key)).toBe(false);
  });

  test('do not make a key last longer than its 12 hours, nor a clock that was set back', async () => {
    const host = await doors();
    const { given } = joined(host);
    await host.book.written();
    const after = (hours: number) =>
      doors({ disk: copyOf(host.disk), clock: new FakeClock({ timeOfDay: (19.5 + hours) * 3_600_000 }) });
    const late = await after(11);
    expect(comeBack(late.knock(), given)).not.toBeNull();
    late.clock.advance(3_600_000);
    expect(comeBack(late.knock(), given)).toBeNull();
    expect((await after(12)).book.devices()).toEqual([]);
    const early = await after(-100);
    early.clock.advance(12 * 3_600_000 - 1);
    expect(comeBack(early.knock(), given)).not.toBeNull();
    early.clock.advance(1);
    expect(early.book.devices()).toEqual([]);
  });

  test('once sharing has ended, or nobody is left, nothing is waited for: the program can end', async () => {
    const ended = await doors();
    joined(ended);
    await ended.book.end();
    expect(ended.clock.pending).toBe(0);
    const emptied = await doors();
    const { given } = joined(emptied);
    expect(await emptied.book.throwOut(given.id)).toBeNull();
    expect(emptied.clock.pending).toBe(0);
  });

  test('are written when a device comes back after an hour, not each time that it does', async () => {
    const host = await doors();
    const { given } = joined(host);
    await host.book.written();
    const seen = (): number => {
      const { keys } = JSON.parse(host.disk.text('/data/keys.json')) as { keys: { seen: number }[] };
      return keys[0]!.seen;
    };
    const first = seen();
    host.clock.advance(3_599_999);
    comeBack(host.knock(), given);
    await host.book.written();
    expect(seen()).toBe(first);
    host.clock.advance(1);
    const phone = host.knock();
    comeBack(phone, given);
    await host.book.written();
    expect(seen()).toBe(first + 3_600_000);
    host.clock.advance(3_600_000);
    phone.leave();
    await host.book.written();
    expect(seen()).toBe(first + 7_200_000);
  });

  test.each([
    ['walls.json', '{"version":1,"walls":[{"id":"x"}]}'],
    ['walls.json', 'nonsense'],
    ['keys.json', JSON.stringify({ version: 1, keys: [keptAs('wall')] })],
    ['keys.json', '{"version":1,"keys":{}}'],
    ['keys.json', JSON.stringify({ version: 1, keys: [keptAs('remote', `${'ab'.repeat(32)}0`)] })],
    ['keys.json', JSON.stringify({ version: 1, keys: [keptAs('remote', `0${'ab'.repeat(32)}`)] })],
  ])('%s that holds no devices (%s) is set aside, and the coach is told', async (file, text) => {
    const disk = new FakeDisk();
    disk.put(`/data/${file}`, Buffer.from(text));
    const host = await doors({ disk });
    const aside = `/data/${file}.aside-1`;
    expect(host.book.said).toEqual([`/data/${file} holds no devices: it is kept as ${aside}.`]);
    expect(disk.text(aside)).toBe(text);
    expect(host.book.devices()).toEqual([]);
    wall(host);
    joined(host);
    await host.book.written();
    expect((await doors({ disk })).book.devices().length).toBe(2);
  });

  test.each(['walls.json', 'keys.json'])(
    '%s of a newer program is left as it is, and devices are let in',
    async (file) => {
      const disk = new FakeDisk();
      disk.put(`/data/${file}`, Buffer.from('{"version":2}'));
      const host = await doors({ disk });
      expect(host.book.said).toEqual([
        `/data/${file} is of a newer Lanecall and left as it is: who is let in, or thrown out, is forgotten when Lanecall ends.`,
      ]);
      expect(host.book.devices()).toEqual([]);
      wall(host);
      const { given } = joined(host);
      await host.book.written();
      expect(disk.text(`/data/${file}`)).toBe('{"version":2}');
      expect(comeBack(host.knock(), given)).not.toBeNull();
    },
  );

  test('that cannot be read are left alone, and that is said', async () => {
    const disk = new FakeDisk();
    disk.put('/data/walls.json', Buffer.from('{"version":1,"walls":[]}'));
    disk.unreadable.set('/data/walls.json', 'EACCES');
    const host = await doors({ disk });
    expect(host.book.said).toEqual([
      '/data/walls.json cannot be read (this user may not read or write it): ' +
        'who is let in, or thrown out, is forgotten when Lanecall ends.',
    ]);
    expect(host.book.devices()).toEqual([]);
    wall(host);
    await host.book.written();
    expect(Buffer.from(disk.files.get('/data/walls.json')!).toString()).toBe('{"version":1,"walls":[]}');
  });

  test('that cannot be moved away are left alone, and that is said', async () => {
    const disk = new FakeDisk();
    disk.put('/data/keys.json', Buffer.from('nonsense'));
    disk.refuses = 'EROFS';
    const { book } = await doors({ disk });
    expect(book.said).toEqual([
      '/data/keys.json holds no devices and cannot be moved (the disk is read-only): ' +
        'who is let in, or thrown out, is forgotten when Lanecall ends.',
    ]);
    expect(book.devices()).toEqual([]);
  });

  test('that cannot be written: the coach is told until they can, and a thrown-out device may come back', async () => {
    const host = await doors();
    const { given } = joined(host);
    joined(host);
    await host.book.written();
    host.disk.refuses = 'ENOSPC';
    const why =
      'Who is let in cannot be kept in /data/keys.json (the disk is full): it holds until Lanecall ends, and no longer.';
    expect(await host.book.throwOut(given.id)).toBe(why);
    await host.book.written();
    expect(host.told.devices).toBe(why);
    expect(comeBack(host.knock(), given)).toBeNull();
    host.disk.refuses = null;
    host.book.rename(host.book.devices()[0]!.id, 'Far end');
    await host.book.written();
    expect(host.told.devices).toBeNull();
    expect((await doors({ disk: host.disk })).book.devices().map(({ name }) => name)).toEqual(['Far end']);
  });
});

/** As a power cut leaves it. */
function copyOf({ safe }: FakeDisk): FakeDisk {
  const disk = new FakeDisk();
  for (const [file, bytes] of safe) disk.put(file, bytes);
  return disk;
}

/** One entry of keys.json, with another role. */
function keptAs(role: string, key = 'ab'.repeat(32)) {
  return { id: '0123456789abcdef', role, name: 'Wall 1', key, seen: 0, until: 1 };
}
