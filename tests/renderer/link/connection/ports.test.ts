/*
 * What a link takes of the browser: its clocks, its chance, what wakes it and what loads the page anew.
 */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { WindowBridge } from '../../../../app/wire/window-bridge.ts';
import { browserPorts } from '../../../../renderer/link/connection/ports.ts';

class FakeDocument extends EventTarget {
  visibilityState = 'visible';
}

let document: FakeDocument;
let window: EventTarget & { sessionStorage?: Storage; lanecallWindow?: WindowBridge };

beforeEach(() => {
  vi.useFakeTimers();
  document = new FakeDocument();
  window = new EventTarget();
  vi.stubGlobal('document', document);
  vi.stubGlobal('window', window);
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('[link] of the browser', () => {
  test('two clocks: one that never steps, and the time of day', () => {
    const ports = browserPorts();
    const [now, wall] = [ports.now(), ports.wall()];
    vi.advanceTimersByTime(700);
    vi.setSystemTime(wall + 3_600_000);
    expect([ports.now() - now, ports.wall() - wall]).toEqual([700, 3_600_000]);
  });

  test('timers that can be cancelled', () => {
    const ports = browserPorts();
    const rung: string[] = [];
    ports.after(100, () => rung.push('kept'));
    ports.after(100, () => rung.push('cancelled'))();
    vi.advanceTimersByTime(100);
    expect(rung).toEqual(['kept']);
  });

  test('chance, from 0 up to 1', () => {
    const random = vi.spyOn(Math, 'random').mockReturnValue(0.375);
    expect(browserPorts().random()).toBe(0.375);
    random.mockRestore();
  });

  test('names of 128 bits of chance, in 32 digits, none twice', () => {
    const bytes = vi.spyOn(crypto, 'getRandomValues').mockImplementationOnce((array) => {
      new Uint8Array((array as Uint8Array).buffer).set([0, 1, 15, 16, 171, 255]);
      return array;
    });
    expect(browserPorts().newId()).toBe('00010f10abff00000000000000000000');
    bytes.mockRestore();
    expect(browserPorts().newId()).not.toBe(browserPorts().newId());
  });

  test('a command too large for a message is posted as it is, and its answer read', async () => {
    const fetched: unknown[] = [];
    vi.stubGlobal('fetch', (path: string, options: RequestInit) => {
      fetched.push([path, options]);
      return Promise.resolve(new Response('{"ok":true,"at":7}'));
    });
    expect(await browserPorts().post('{"say":"command"}')).toEqual({ ok: true, at: 7 });
    const headers = { 'Content-Type': 'application/json' };
    expect(fetched).toEqual([['/command', { method: 'POST', headers, body: '{"say":"command"}' }]]);
  });

  test('the page is loaded anew, and the tab remembers it', () => {
    const kept = new Map<string, string>();
    const storage = { getItem: (key: string) => kept.get(key) ?? null, setItem: kept.set.bind(kept) };
    window.sessionStorage = storage as unknown as Storage;
    const reload = vi.fn();
    vi.stubGlobal('location', { reload });
    browserPorts().reloadOnce();
    browserPorts().reloadOnce();
    expect([reload.mock.calls.length, kept.size]).toEqual([1, 1]);
  });
});

describe('[link] what wakes a link', () => {
  const come = (target: EventTarget, event: string): void => void target.dispatchEvent(new Event(event));

  test('the network that is back, the page that is shown again, also out of the browser’s memory', () => {
    const woken = vi.fn();
    browserPorts().onWake(woken);
    come(window, 'online');
    come(window, 'pageshow');
    come(document, 'visibilitychange');
    expect(woken).toHaveBeenCalledTimes(3);
  });

  test('not the page that is hidden', () => {
    const woken = vi.fn();
    browserPorts().onWake(woken);
    document.visibilityState = 'hidden';
    come(document, 'visibilitychange');
    expect(woken).not.toHaveBeenCalled();
  });

  test('in a window of the program, the machine that woke up', () => {
    let wake = (): void => undefined;
    const onWoken = (call: () => void): void => void (wake = call);
    window.lanecallWindow = { onWoken } as WindowBridge;
    const woken = vi.fn();
    const stop = browserPorts().onWake(woken);
    wake();
    expect(woken).toHaveBeenCalledTimes(1);
    stop();
    wake();
    expect(woken).toHaveBeenCalledTimes(1);
  });

  test('nothing any more once it is stopped', () => {
    const woken = vi.fn();
    browserPorts().onWake(woken)();
    come(window, 'online');
    come(window, 'pageshow');
    come(document, 'visibilitychange');
    expect(woken).not.toHaveBeenCalled();
  });
});
