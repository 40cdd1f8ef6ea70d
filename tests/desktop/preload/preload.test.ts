/*
 * The preload scripts with Electron's two objects recorded: what they hand to the page, and what passes
 * through it.
 */

import { beforeEach, describe, expect, test, vi } from 'vitest';
import { BRIDGE, CHANNELS, type CoachBridge, type WindowBridge } from '../../../app/wire/window-bridge.ts';

const electron = vi.hoisted(() => {
  const exposed = new Map<string, unknown>();
  const listeners = new Map<string, (event: unknown, ...words: unknown[]) => void>();
  const sent: unknown[][] = [];
  return {
    exposed,
    listeners,
    sent,
    contextBridge: { exposeInMainWorld: (name: string, api: unknown) => exposed.set(name, api) },
    ipcRenderer: {
      on: (channel: string, listener: (event: unknown, ...words: unknown[]) => void) =>
        listeners.set(channel, listener),
      send: (...words: unknown[]) => sent.push(words),
      invoke: (...words: unknown[]) => Promise.resolve(words),
    },
  };
});
vi.mock('electron', () => electron);

beforeEach(() => {
  vi.resetModules();
  electron.exposed.clear();
  electron.listeners.clear();
  electron.sent.length = 0;
});

const EVENT = { sender: 'a secret' };

async function bridgeOf(kind: 'desk' | 'wall'): Promise<CoachBridge> {
  await (kind === 'desk'
    ? import('../../../app/desktop/preload/desk.ts')
    : import('../../../app/desktop/preload/wall.ts'));
  expect([...electron.exposed.keys()]).toEqual([BRIDGE]);
  return electron.exposed.get(BRIDGE) as CoachBridge;
}

describe('[preload]', () => {
  test('each page finds functions only, the wall screen none to ask with', async () => {
    const wall: WindowBridge = await bridgeOf('wall');
    expect(Object.keys(wall).sort()).toEqual(['connect', 'hangUp', 'onWoken', 'say']);
    vi.resetModules();
    electron.exposed.clear();
    const desk = await bridgeOf('desk');
    expect(Object.keys(desk).sort()).toEqual(['ask', 'connect', 'hangUp', 'onSessionFile', 'onWoken', 'say']);
    expect([...Object.values(wall), ...Object.values(desk)].every((value) => typeof value === 'function')).toBe(true);
  });

  test('a page hears what was said on its connection, without the event it came with', async () => {
    const bridge = await bridgeOf('wall');
    const heard: unknown[][] = [];
    bridge.connect(
      (...words) => heard.push(words),
      (...words) => heard.push(['closed', ...words]),
    );
    expect(electron.sent).toEqual([[CHANNELS.connect, 1]]);
    electron.listeners.get(CHANNELS.heard)!(EVENT, 1, 'a message');
    electron.listeners.get(CHANNELS.heard)!(EVENT, 0, 'one of an older connection');
    electron.listeners.get(CHANNELS.heard)!(EVENT, 1, { not: 'text' });
    electron.listeners.get(CHANNELS.closed)!(EVENT, 0);
    electron.listeners.get(CHANNELS.heard)!(EVENT, 1, 'another');
    electron.listeners.get(CHANNELS.closed)!(EVENT, 1);
    electron.listeners.get(CHANNELS.heard)!(EVENT, 1, 'too late');
    expect(heard).toEqual([['a message'], ['another'], ['closed']]);
  });

  test('what a page says goes out under the number of its connection, as text', async () => {
    const bridge = await bridgeOf('desk');
    bridge.connect(
      () => undefined,
      () => undefined,
    );
    bridge.connect(
      () => undefined,
      () => undefined,
    );
    bridge.say({ toString: () => 'text' } as never);
    bridge.hangUp();
    expect(electron.sent.slice(2)).toEqual([
      [CHANNELS.say, 2, 'text'],
      [CHANNELS.hangUp, 2],
    ]);
    expect(await bridge.ask('PUT', '/session', '{}')).toEqual([CHANNELS.ask, 'PUT', '/session', '{}']);
  });

  test('a session file that comes before the page is ready waits for it', async () => {
    const bridge = await bridgeOf('desk');
    const file = { name: 'tuesday.txt', text: 'x', lanesText: null, why: 'because' };
    electron.listeners.get(CHANNELS.sessionFile)!(EVENT, file);
    const files: unknown[] = [];
    bridge.onSessionFile((each) => files.push(each));
    electron.listeners.get(CHANNELS.sessionFile)!(EVENT, { ...file, name: 'friday.txt' });
    expect(files).toEqual([file, { ...file, name: 'friday.txt' }]);
    // Whoever listens next gets what comes next.
    bridge.onSessionFile((each) => files.push(each));
    expect(files).toHaveLength(2);
  });

  test('a page is told when the machine has woken up', async () => {
    const bridge = await bridgeOf('wall');
    const woken: unknown[][] = [];
    bridge.onWoken((...words) => woken.push(words));
    electron.listeners.get(CHANNELS.woken)!(EVENT);
    expect(woken).toEqual([[]]);
  });

  test('the main process hears of a frame with something on it, not of one without', async () => {
    const { tellWhenPainted } = await import('../../../app/desktop/preload/paint.ts');
    let paint: (name: string) => void = () => undefined;
    let asked: object | null = null;
    tellWhenPainted(
      class {
        constructor(seen: (list: { getEntriesByName(name: string): readonly unknown[] }) => void) {
          paint = (painted) => seen({ getEntriesByName: (name) => (name === painted ? [{}] : []) });
        }
        observe(options: object): void {
          asked = options;
        }
      },
    );
    // A page that was painted before anybody looked counts too.
    expect(asked).toEqual({ type: 'paint', buffered: true });
    paint('first-paint');
    expect(electron.sent).toEqual([]);
    paint('first-contentful-paint');
    expect(electron.sent).toEqual([[CHANNELS.painted]]);
  });

  test("a key of the wall screen is pressed on the coach's page, and not into what had the keyboard there", async () => {
    const { pressOn } = await import('../../../app/desktop/preload/pressed-keys.ts');
    const order: unknown[] = [];
    class KeyboardEvent {
      readonly words: unknown[];
      constructor(...words: unknown[]) {
        this.words = words;
      }
    }
    const page = {
      document: { activeElement: { blur: () => order.push('blurred') } },
      KeyboardEvent,
      dispatchEvent: ({ words }: KeyboardEvent) => order.push(...words) > 0,
    };
    const key = { key: 'b', code: 'KeyB', shiftKey: false, repeat: false };
    pressOn(page as never, key);
    expect(order).toEqual(['blurred', 'keydown', { ...key, bubbles: true }]);
  });

  test('a page that has hung up hears nothing more, not even that the connection is closed', async () => {
    const bridge = await bridgeOf('wall');
    const heard: unknown[] = [];
    electron.listeners.get(CHANNELS.closed)!(EVENT, 0);
    bridge.connect(
      (text) => heard.push(text),
      () => heard.push('closed'),
    );
    bridge.hangUp();
    electron.listeners.get(CHANNELS.heard)!(EVENT, 1, 'late');
    electron.listeners.get(CHANNELS.closed)!(EVENT, 1);
    expect(heard).toEqual([]);
  });

  test('what a page asks goes out as text, whatever it is', async () => {
    const bridge = await bridgeOf('desk');
    const odd = { toString: () => 'text' } as never;
    expect(await bridge.ask(odd, odd, odd)).toEqual([CHANNELS.ask, 'text', 'text', 'text']);
  });

  test('everyone who wants to know of a waking is told', async () => {
    const bridge = await bridgeOf('desk');
    const woken: number[] = [];
    bridge.onWoken(() => woken.push(1));
    bridge.onWoken(() => woken.push(2));
    electron.listeners.get(CHANNELS.woken)!(EVENT);
    expect(woken).toEqual([1, 2]);
  });

  test.each(['desk', 'wall'] as const)('the page of the %s is watched until it is painted', async (kind) => {
    const watched: object[] = [];
    vi.stubGlobal(
      'PerformanceObserver',
      class {
        observe(options: object): void {
          watched.push(options);
        }
      },
    );
    await bridgeOf(kind);
    vi.unstubAllGlobals();
    expect(watched).toEqual([{ type: 'paint', buffered: true }]);
  });

  test("a key of the wall screen is pressed on the coach's own page, where nothing has the keyboard too", async () => {
    const pressed: unknown[] = [];
    vi.stubGlobal('document', { activeElement: null });
    vi.stubGlobal(
      'KeyboardEvent',
      class {
        readonly type: string;
        constructor(type: string) {
          this.type = type;
        }
      },
    );
    vi.stubGlobal('dispatchEvent', ({ type }: { readonly type: string }) => pressed.push(type));
    await bridgeOf('desk');
    const key = { key: 'b', code: 'KeyB', shiftKey: false, repeat: false };
    electron.listeners.get(CHANNELS.key)!(EVENT, key);
    // What has the keyboard may be nothing that can let go of it.
    vi.stubGlobal('document', { activeElement: {} });
    electron.listeners.get(CHANNELS.key)!(EVENT, key);
    vi.unstubAllGlobals();
    expect(pressed).toEqual(['keydown', 'keydown']);
  });
});
