/*
 * The second carrier: deck messages through the bridge of a window of the desktop program.
 */

import { afterEach, describe, expect, test, vi } from 'vitest';
import type { CoachBridge, SessionFile, WindowBridge } from '../../../../app/wire/window-bridge.ts';
import {
  askBy,
  askForSessionFile,
  askHost,
  hostAddress,
  onSessionFile,
  onWoken,
  ownCarrier,
  windowCarrier,
} from '../../../../renderer/link/connection/own-window.ts';

class BridgeUnderTest implements WindowBridge {
  readonly said: string[] = [];
  hungUp = 0;
  message: (text: string) => void = () => undefined;
  closed: () => void = () => undefined;

  connect(message: (text: string) => void, closed: () => void): void {
    this.message = message;
    this.closed = closed;
  }

  say(text: string): void {
    this.said.push(text);
  }

  hangUp(): void {
    this.hungUp++;
  }

  wake: () => void = () => undefined;

  onWoken(call: () => void): void {
    this.wake = call;
  }
}

/** That of the coach's window. */
class CoachBridgeUnderTest extends BridgeUnderTest implements CoachBridge {
  readonly asked: string[] = [];
  open: (file: SessionFile) => void = () => undefined;

  ask(method: string, path: string, body: string): Promise<{ status: number; body: string }> {
    this.asked.push(`${method} ${path} ${body}`);
    return Promise.resolve({ status: 409, body: '{"ok":false}' });
  }

  onSessionFile(call: (file: SessionFile) => void): void {
    this.open = call;
  }
}

/** As in a window of the program with that bridge; without one, as in a browser. */
function pageWith(bridge?: WindowBridge): void {
  vi.stubGlobal('window', bridge ? { lanecallWindow: bridge } : {});
  vi.stubGlobal('location', { host: 'deck:7525', origin: 'http://deck:7525' });
}

afterEach(() => {
  vi.unstubAllGlobals();
});

function connect(bridge: BridgeUnderTest) {
  const heard: string[] = [];
  const connection = windowCarrier(bridge).connect({
    opened: () => heard.push('opened'),
    message: (text) => heard.push(text),
    closed: () => heard.push('closed'),
  });
  return { heard, connection };
}

describe('[link] the carrier of a window', () => {
  test('is open when the link has its connection in hand, and carries both ways', async () => {
    const bridge = new BridgeUnderTest();
    const { heard, connection } = connect(bridge);
    expect(heard).toEqual([]);
    await Promise.resolve();
    expect(heard).toEqual(['opened']);
    bridge.message('a');
    connection.send('b');
    expect([heard, bridge.said]).toEqual([['opened', 'a'], ['b']]);
  });

  test('after it is closed from the other side nothing more is heard or sent', async () => {
    const bridge = new BridgeUnderTest();
    const { heard, connection } = connect(bridge);
    bridge.closed();
    await Promise.resolve();
    bridge.closed();
    bridge.message('late');
    connection.send('late');
    connection.close();
    expect([heard, bridge.said, bridge.hungUp]).toEqual([['closed'], [], 0]);
  });

  test('after its own close it hangs up once and hears nothing, not even that it was opened', async () => {
    const bridge = new BridgeUnderTest();
    const { heard, connection } = connect(bridge);
    connection.close();
    connection.close();
    await Promise.resolve();
    bridge.message('late');
    bridge.closed();
    expect([heard, bridge.hungUp]).toEqual([[], 1]);
  });

  test('has more patience with a main process that is held up than there is in a held menu', () => {
    expect(windowCarrier(new BridgeUnderTest()).patience).toBeGreaterThan(10_000);
  });
});

describe('[link] what carries messages and questions', () => {
  test('in a window of the program is its bridge', async () => {
    const bridge = new CoachBridgeUnderTest();
    pageWith(bridge);
    ownCarrier()
      .connect({ opened: () => undefined, message: () => undefined, closed: () => undefined })
      .send('a');
    expect(bridge.said).toEqual(['a']);
    expect(await askHost('PUT', '/session', '{}')).toEqual({ status: 409, body: '{"ok":false}' });
    expect(bridge.asked).toEqual(['PUT /session {}']);
    expect(hostAddress()).toBeNull();
  });

  test('in a browser is a socket and requests to the host that the page came from', async () => {
    pageWith();
    const addresses: string[] = [];
    vi.stubGlobal(
      'WebSocket',
      class {
        constructor(address: string) {
          addresses.push(address);
        }
      },
    );
    ownCarrier().connect({ opened: () => undefined, message: () => undefined, closed: () => undefined });
    expect(addresses).toEqual(['ws://deck:7525/deck']);
    const fetched: unknown[] = [];
    vi.stubGlobal('fetch', (path: string, options: unknown) => {
      fetched.push([path, options]);
      return Promise.resolve(new Response('{"ok":true}', { status: 201 }));
    });
    expect(await askHost('PUT', '/session', '{"text":""}')).toEqual({ status: 201, body: '{"ok":true}' });
    const headers = { 'Content-Type': 'application/json' };
    expect(fetched).toEqual([['/session', { method: 'PUT', headers, body: '{"text":""}' }]]);
    expect(hostAddress()).toBe('http://deck:7525');
  });

  test('of a page that was let in is its own sealed socket, for questions too, until it is there no more', async () => {
    pageWith();
    const asked: string[] = [];
    askBy((method, path, body) => {
      asked.push(`${method} ${path} ${body}`);
      return Promise.resolve({ status: 200, body: '{}' });
    });
    expect(await askHost('POST', '/records', '{}')).toEqual({ status: 200, body: '{}' });
    askBy(null);
    vi.stubGlobal('fetch', () => Promise.resolve(new Response('{"ok":true}', { status: 201 })));
    expect(await askHost('POST', '/records', '{}')).toEqual({ status: 201, body: '{"ok":true}' });
    expect(asked).toEqual(['POST /records {}']);
  });

  test('is its own sealed socket too for a question that was refused because sharing began while it was on its way', async () => {
    pageWith();
    const refused = () => Promise.resolve(new Response('{"ok":false}', { status: 403 }));
    vi.stubGlobal('fetch', () => {
      askBy((method, path, body) => Promise.resolve({ status: 200, body: `${method} ${path} ${body}` }));
      return refused();
    });
    expect(await askHost('PUT', '/session', '{}')).toEqual({ status: 200, body: 'PUT /session {}' });
    askBy(null);
    vi.stubGlobal('fetch', refused);
    expect(await askHost('PUT', '/session', '{}')).toEqual({ status: 403, body: '{"ok":false}' });
  });

  test('in a window that is not the coach’s carries no questions', async () => {
    pageWith(new BridgeUnderTest());
    await expect(askHost('POST', '/leave', '{}')).rejects.toThrow('Only the coach asks.');
  });
});

describe('[window] the machine woke up', () => {
  test('is told, until that is no longer wanted', () => {
    const bridge = new BridgeUnderTest();
    pageWith(bridge);
    let woken = 0;
    const stop = onWoken(() => woken++);
    bridge.wake();
    stop();
    bridge.wake();
    expect(woken).toBe(1);
  });

  test('is never told in a browser', () => {
    pageWith();
    expect(onWoken(() => undefined)).not.toThrow();
  });
});

describe('[window] a session file that the served program was started with', () => {
  const FILE: SessionFile = { name: 'a.txt', text: 'Main\n', lanesText: null, why: 'a.txt has faults.' };
  const answers = (reply: () => Promise<Response>): void => {
    vi.stubGlobal('window', {});
    vi.stubGlobal('fetch', reply);
  };

  test('is asked for where the launcher left it', async () => {
    const fetched = vi.fn(() => Promise.resolve(new Response('{"file":null}')));
    answers(fetched);
    await askForSessionFile();
    const headers = { 'Content-Type': 'application/json' };
    expect(fetched.mock.calls).toEqual([['/session-file', { method: 'POST', headers, body: '{}' }]]);
  });

  test('is heard, whether it comes before somebody listens or after, and once', async () => {
    answers(() => Promise.resolve(new Response(JSON.stringify({ file: FILE }))));
    const heard: SessionFile[] = [];
    await askForSessionFile();
    onSessionFile((file) => heard.push(file));
    expect(heard).toEqual([FILE]);
    onSessionFile((file) => heard.push(file));
    expect(heard).toHaveLength(1);
    await askForSessionFile();
    expect(heard).toEqual([FILE, FILE]);
  });

  test.each<[string, () => Promise<Response>]>([
    ['none', () => Promise.resolve(new Response('{"file":null}'))],
    ['a refusal', () => Promise.resolve(new Response(JSON.stringify({ file: FILE }), { status: 403 }))],
    ['no JSON', () => Promise.resolve(new Response('<html>'))],
    ['no answer', () => Promise.reject(new Error('gone'))],
  ])('%s: nothing is heard', async (_, reply) => {
    answers(reply);
    const heard: SessionFile[] = [];
    onSessionFile((file) => heard.push(file));
    await askForSessionFile();
    expect(heard).toEqual([]);
  });
});

describe('[window] a session file that somebody opened with the program', () => {
  test('comes over the bridge, and is not asked for by a request', async () => {
    const bridge = new CoachBridgeUnderTest();
    pageWith(bridge);
    const fetched = vi.fn();
    vi.stubGlobal('fetch', fetched);
    const heard: string[] = [];
    onSessionFile(({ name }) => heard.push(name));
    bridge.open({ name: 'a.txt', text: 'Main\n', lanesText: null, why: 'a.txt has faults.' });
    await askForSessionFile();
    expect([heard, bridge.asked, fetched.mock.calls]).toEqual([['a.txt'], [], []]);
  });
});
