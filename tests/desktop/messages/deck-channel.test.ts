/*
 * Deck messages between windows and host, with Electron's channel recorded and the host real.
 */

import { beforeEach, describe, expect, test, vi } from 'vitest';
import { openDeckChannel, type DeckChannel } from '../../../app/desktop/messages/deck-channel.ts';
import { pageAddress, type WindowKind } from '../../../app/desktop/windows/window-kind.ts';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { Library } from '../../../app/host/library/library.ts';
import { FakeDisk } from '../../support/host/fake-disk.ts';
import { JournalInMemory } from '../../support/host/journal-in-memory.ts';
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
  gone = false;
  readonly kind: WindowKind;

  constructor(kind: WindowKind) {
    this.kind = kind;
  }

  tell(channel: string, ...words: readonly unknown[]): unknown {
    const senderFrame = { url: pageAddress(this.kind), parent: null };
    const sender = {
      id: this.id,
      isDestroyed: () => this.gone,
      isCrashed: () => false,
      send: (name: string, n: unknown, text: string) => {
        if (this.gone) throw new Error('Object has been destroyed');
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
    kindOf: (id) => windows.find((window) => window.id === id)?.kind ?? null,
    painted: (kind) => void painted.push(kind),
  });
  await host.open({ text: SESSION, lanesText: null }, { replace: false });
});

describe('[desktop] deck messages of windows', () => {
  test('a window that says hello has the session and the run, its pings and its commands answered', async () => {
    const [desk] = windows as [WindowUnderTest];
    desk.connect();
    expect(desk.heard.map(({ say }) => say)).toEqual(['text', 'snapshot', 'screens']);
    desk.say({ say: 'ping', n: 1, t1: 5 });
    desk.say({ say: 'command', id: 'a', command: { do: 'start' } });
    await expect.poll(() => desk.heard.map(({ say }) => say)).toContain('answer');
    expect(desk.heard.find(({ say }) => say === 'answer')).toMatchObject({ id: 'a', ok: true });
    expect(desk.heard.map(({ say }) => say)).toContain('pong');
    expect(host.snapshot().screens).toEqual({ desk: 1, wall: 0, remote: 0 });
  });

  test('the wall screen that gives a command is hung up on, and nothing is done', async () => {
    const [, wall] = windows as [WindowUnderTest, WindowUnderTest];
    wall.connect();
    wall.say({ say: 'command', id: 'b', command: { do: 'start' } });
    expect(wall.heard[wall.heard.length - 1]).toMatchObject({ say: 'bye', why: 'The wall screen only shows.' });
    expect(wall.closed).toEqual([1]);
    await Promise.resolve();
    expect(host.current()?.commands).toEqual([]);
    expect(host.snapshot().screens.wall).toBe(0);
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
    expect(host.snapshot().screens).toEqual({ desk: 1, wall: 1, remote: 0 });
    const before = desk.heard.length;
    desk.say({ say: 'ping', n: 1, t1: 1 }, 1);
    expect(desk.heard.length).toBe(before);
    channel.gone(wall.id);
    wall.gone = true;
    expect(host.snapshot().screens.wall).toBe(0);
    host.tell('a test', 'something new');
    desk.tell(CHANNELS.hangUp, 2);
    expect(host.snapshot().screens.desk).toBe(0);
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
    expect(host.snapshot().screens.desk).toBe(0);
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
    for (const [method, path, words] of [
      ['POST', '/session', opened],
      ['PUT', '/nothing', '{}'],
      ['PUT', '/session', 7],
      [1, 2, 3],
    ]) {
      expect(await desk.tell(CHANNELS.ask, method, path, words)).toMatchObject({ status: 404 });
    }
    const huge = JSON.stringify({ text: 'x'.repeat(1_200_000), lanesText: null });
    expect(await desk.tell(CHANNELS.ask, 'PUT', '/session', huge)).toMatchObject({ status: 413 });
  });
});
