/*
 * The second carrier: deck messages through the bridge of a window of the desktop program.
 */

import { afterEach, describe, expect, test, vi } from 'vitest';
import type { SessionFile, WindowBridge } from '../../../app/wire/window-bridge.ts';
import { askForSessionFile, onSessionFile, windowCarrier } from '../../../renderer/link/own-window.ts';

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

  onWoken(): void {
    // No carrier listens to it.
  }
}

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

describe('[window] a session file that the served program was started with', () => {
  const FILE: SessionFile = { name: 'a.txt', text: 'Main\n', lanesText: null, why: 'a.txt has faults.' };
  const answers = (reply: () => Promise<Response>): void => {
    vi.stubGlobal('window', {});
    vi.stubGlobal('fetch', reply);
  };

  afterEach(() => vi.unstubAllGlobals());

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
    ['a refusal', () => Promise.resolve(new Response('{"ok":false}', { status: 403 }))],
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
