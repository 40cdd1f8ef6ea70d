/*
 * Deck messages between windows and host, with Electron's channel recorded and the host real.
 */

import { beforeEach, describe, expect, test, vi } from 'vitest';
import { openDeckChannel, type DeckChannel } from '../../../app/desktop/messages/deck-channel.ts';
import { pageAddress, type WindowKind } from '../../../app/desktop/windows/window-kind.ts';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { Library } from '../../../app/host/library/library.ts';
import { Squads } from '../../../app/host/squads/squads.ts';
import { FakeDisk } from '../../support/host/folders/fake-disk.ts';
import { recordsOn } from '../../support/host/folders/records-folder.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';
import { WIRE_VERSION, type FromHost } from '../../../app/wire/messages.ts';
import { readFromHost } from '../../support/host/from-host.ts';
import { CHANNELS } from '../../../app/wire/window-bridge.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';

const ipc = vi.hoisted(() => {
  const listeners = new Map<string, (event: object, ...words: unknown[]) => unknown>();
  const on = (channel: string, listener: (event: object, ...words: unknown[]) => unknown) => {
    listeners.set(channel, listener);
  };
  return { listeners, ipcMain: { on, handle: on } };
});
vi.mock('electron', () => ({ ipcMain: ipc.ipcMain }));

const SESSION = 'Main set\n4 x 50 free @ 1:00';

class WindowUnderTest {
  static last = 0;
  readonly id = ++WindowUnderTest.last;
  readonly heard: FromHost[] = [];
  closed: unknown[] = [];
  tries = 0;
  gone = false;
  crashed = false;
  /** In a frame inside the page. */
  isInner = false;
  readonly kind: WindowKind;

  constructor(kind: WindowKind) {
    this.kind = kind;
  }

  tell(channel: string, ...words: readonly unknown[]): unknown {
    const senderFrame = { url: pageAddress(this.kind), parent: this.isInner ? {} : null };
    const sender = {
      id: this.id,
      isDestroyed: () => this.gone,
      isCrashed: () => this.crashed,
      send: (name: string, n: unknown, text: string) => {
        this.tries++;
        if (this.gone || this.crashed) throw new Error('Object has been destroyed');
        if (name === CHANNELS.heard) this.heard.push(readFromHost(text)!);
        else this.closed.push(n);
      },
    };
    return ipc.listeners.get(channel)!({ sender, senderFrame }, ...words);
  }

  connect(n = 1): void {
    this.tell(CHANNELS.connect, n);
    this.say({ say: 'hello', version: WIRE_VERSION, screen: this.kind }, n);
  }

  say(message: object, n = 1): void {
    this.tell(CHANNELS.say, n, JSON.stringify(message));
  }
}

let host: DeckHost;
let channel: DeckChannel;
let windows: WindowUnderTest[];
let painted: WindowKind[];

beforeEach(async () => {
  const clock = new FakeClock();
  let ids = 0;
  host = new DeckHost({ clock, timers: clock.timers, journal: new JournalInMemory(), newId: () => `id-${ids++}` });
  windows = [new WindowUnderTest('desk'), new WindowUnderTest('wall')];
  painted = [];
  channel = openDeckChannel(host, clock, {
    library: new Library({ disk: new FakeDisk(), folder: '/data', wall: () => 0 }),
    records: recordsOn(new FakeDisk()),
    squads: new Squads({
      disk: new FakeDisk(),
      folder: '/data',
      guard: { check: () => Promise.resolve(), checkNow: () => undefined },
    }),
    kindOf: (id) => windows.find((window) => window.id === id)?.kind ?? null,
    painted: (kind) => void painted.push(kind),
  });
  await host.open({ text: SESSION, lanesText: null }, { replace: false });
});

describe('[desktop] deck messages of windows', () => {
  test('a window that says hello has the session and the run, its pings and its commands answered', async () => {
    const [desk] = windows as [WindowUnderTest];
    desk.connect();
    expect(desk.heard.map(({ say }) => say)).toEqual(['text', 'snapshot', 'screens', 'presence', 'sound']);
    desk.say({ say: 'ping', n: 1, t1: 5 });
    desk.say({ say: 'command', id: 'a', command: { do: 'start' } });
    await expect.poll(() => desk.heard.map(({ say }) => say)).toContain('answer');
    expect(desk.heard.find(({ say }) => say === 'answer')).toMatchObject({ id: 'a', ok: true });
    expect(desk.heard.map(({ say }) => say)).toContain('pong');
    expect(host.presence.now()).toEqual({ desk: 1, wall: 0, remote: 0 });
  });

  test('the wall screen that gives a command is hung up on, and nothing is done', async () => {
    const [, wall] = windows as [WindowUnderTest, WindowUnderTest];
    wall.connect();
    wall.say({ say: 'command', id: 'b', command: { do: 'start' } });
    expect(wall.heard[wall.heard.length - 1]).toMatchObject({ say: 'bye', why: 'The wall screen only shows.' });
    expect(wall.closed).toEqual([1]);
    await Promise.resolve();
    expect(host.current()?.commands).toEqual([]);
    expect(host.presence.now().wall).toBe(0);
  });

  test.each<[string, object]>([
    ['names itself as another', { say: 'hello', version: WIRE_VERSION, screen: 'desk' }],
    ['says what is no message', { say: 'please' }],
    ['says too much', { say: 'ping', n: 1, t1: 1, more: 'x'.repeat(70_000) }],
  ])('a wall screen that %s is hung up on', (_, message) => {
    const [, wall] = windows as [WindowUnderTest, WindowUnderTest];
    wall.tell(CHANNELS.connect, 1);
    wall.say(message);
    expect(wall.closed).toEqual([1]);
  });

  test('a page that is loaded anew takes the place of the one before; one that is gone is counted out', () => {
    const [desk, wall] = windows as [WindowUnderTest, WindowUnderTest];
    desk.connect(1);
    desk.connect(2);
    wall.connect();
    expect(host.presence.now()).toEqual({ desk: 1, wall: 1, remote: 0 });
    const before = desk.heard.length;
    desk.say({ say: 'ping', n: 1, t1: 1 }, 1);
    expect(desk.heard.length).toBe(before);
    channel.gone(wall.id);
    wall.gone = true;
    expect(host.presence.now().wall).toBe(0);
    host.tell('a test', 'something new');
    desk.tell(CHANNELS.hangUp, 2);
    expect(host.presence.now().desk).toBe(0);
  });

  test("what is no message is the end of the coach's connection too, with another word", () => {
    const [desk] = windows as [WindowUnderTest];
    desk.connect();
    desk.say({ say: 'please' });
    expect(desk.heard[desk.heard.length - 1]).toMatchObject({ say: 'bye', why: 'That was no message of a screen.' });
    desk.connect(2);
    expect(host.presence.now().desk).toBe(1);
  });

  test('a connection without a number is none, and a message without a text is dropped', () => {
    const [desk] = windows as [WindowUnderTest];
    desk.tell(CHANNELS.connect, 'one');
    desk.tell(CHANNELS.say, 'one', JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: 'desk' }));
    expect(host.presence.now().desk).toBe(0);
    desk.connect();
    desk.tell(CHANNELS.say, 1, { say: 'ping' });
    desk.tell(CHANNELS.say, 1, 7);
    desk.tell(CHANNELS.connect, 'two');
    expect([desk.closed, host.presence.now().desk]).toEqual([[], 1]);
  });

  test('a frame inside the page neither connects, speaks nor hangs up', () => {
    const [desk] = windows as [WindowUnderTest];
    desk.isInner = true;
    desk.connect();
    expect(host.presence.now().desk).toBe(0);
    desk.isInner = false;
    desk.connect();
    const before = desk.heard.length;
    desk.isInner = true;
    desk.connect(2);
    desk.say({ say: 'ping', n: 1, t1: 5 });
    desk.tell(CHANNELS.hangUp, 1);
    expect([desk.heard.length, host.presence.now().desk]).toEqual([before, 1]);
  });

  test('only the connection of now hangs up, and nobody who has none', () => {
    const [desk, wall] = windows as [WindowUnderTest, WindowUnderTest];
    desk.connect(1);
    desk.connect(2);
    desk.tell(CHANNELS.hangUp, 1);
    expect(host.presence.now().desk).toBe(1);
    wall.tell(CHANNELS.hangUp, 1);
    wall.say({ say: 'ping', n: 1, t1: 5 });
    expect(wall.heard).toEqual([]);
  });

  test('nothing is sent to a page that has crashed or is closed', async () => {
    const [desk, wall] = windows as [WindowUnderTest, WindowUnderTest];
    desk.connect();
    wall.connect();
    [desk.crashed, wall.gone] = [true, true];
    const before = [desk.tries, wall.tries];
    await host.command('x', { do: 'start' });
    expect([desk.tries, wall.tries]).toEqual(before);
  });

  test('a window that has been painted is known by its kind', () => {
    for (const window of windows) window.tell(CHANNELS.painted);
    expect(painted).toEqual(['desk', 'wall']);
  });

  test('a stranger is not heard at all', () => {
    const stranger = new WindowUnderTest('desk');
    stranger.connect();
    stranger.tell(CHANNELS.painted);
    expect(painted).toEqual([]);
    expect(stranger.heard).toEqual([]);
    expect(host.presence.now().desk).toBe(0);
  });

  test("only the coach's window may ask, and gets what the network would get", async () => {
    const [desk, wall] = windows as [WindowUnderTest, WindowUnderTest];
    const body = JSON.stringify({ text: 'Main set\n1 x 50 free @ 0:61', lanesText: null });
    await expect(wall.tell(CHANNELS.ask, 'PUT', '/session', body)).rejects.toThrow('Only the coach');
    const faults = (await desk.tell(CHANNELS.ask, 'PUT', '/session', body)) as { status: number; body: string };
    expect(faults.status).toBe(400);
    expect(JSON.parse(faults.body)).toMatchObject({ in: 'session', errors: [{ line: 2 }] });
    const opened = JSON.stringify({ text: SESSION, lanesText: null });
    expect(await desk.tell(CHANNELS.ask, 'PUT', '/session', opened)).toMatchObject({ status: 200 });
    expect(await desk.tell(CHANNELS.ask, 'POST', '/told', '{}')).toMatchObject({ status: 200 });
    const list = JSON.stringify({ do: 'list', find: '', most: 10 });
    await expect(wall.tell(CHANNELS.ask, 'POST', '/library', list)).rejects.toThrow('Only the coach');
    const listed = (await desk.tell(CHANNELS.ask, 'POST', '/library', list)) as { status: number; body: string };
    expect(listed.status).toBe(200);
    expect(JSON.parse(listed.body)).toEqual({ ok: true, sessions: [], pieces: [], more: 0 });
    await expect(wall.tell(CHANNELS.ask, 'POST', '/squads', '{"do":"list"}')).rejects.toThrow('Only the coach');
    const squads = (await desk.tell(CHANNELS.ask, 'POST', '/squads', '{"do":"list"}')) as { body: string };
    expect(JSON.parse(squads.body)).toEqual({ ok: true, squads: [], said: null });
    const history = JSON.stringify({ do: 'list', find: '', from: null, to: null, most: 10 });
    const runs = (await desk.tell(CHANNELS.ask, 'POST', '/records', history)) as { body: string };
    expect(JSON.parse(runs.body)).toEqual({ ok: true, runs: [], more: 0, toCome: 0, said: [] });
    for (const [method, path, words] of [
      ['POST', '/session', opened],
      ['PUT', '/nothing', '{}'],
      ['PUT', '/session', 7],
      [1, 2, 3],
    ]) {
      const why = { ok: false, why: 'There is nothing to be asked here.' };
      expect(await desk.tell(CHANNELS.ask, method, path, words)).toEqual({ status: 404, body: JSON.stringify(why) });
    }
    const padded = (bytes: number) => desk.tell(CHANNELS.ask, 'PUT', '/session', opened.padEnd(bytes));
    expect(await padded(1024 * 1024)).toMatchObject({ status: 200 });
    expect(await padded(1024 * 1024 + 1)).toMatchObject({ status: 413 });
    const huge = JSON.stringify({ text: 'x'.repeat(1_200_000), lanesText: null });
    expect(await desk.tell(CHANNELS.ask, 'PUT', '/session', huge)).toMatchObject({ status: 413 });
  });
});
