/*
 * The carrier of a page in a browser: one WebSocket, of which nothing is heard once it is over.
 */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { socketCarrier } from '../../../renderer/link/connection/carrier.ts';

class FakeSocket {
  static readonly OPEN = 1;
  static opened: FakeSocket[] = [];
  readyState = 0;
  readonly sent: string[] = [];
  closes = 0;
  onopen: () => void = () => undefined;
  onmessage: (event: { data: unknown }) => void = () => undefined;
  onclose: () => void = () => undefined;

  readonly address: string;

  constructor(address: string) {
    this.address = address;
    FakeSocket.opened.push(this);
  }

  send(text: string): void {
    this.sent.push(text);
  }

  close(): void {
    this.closes++;
  }

  open(): void {
    this.readyState = FakeSocket.OPEN;
    this.onopen();
  }
}

function connect() {
  const heard: string[] = [];
  const connection = socketCarrier('ws://deck:7525/deck').connect({
    opened: () => heard.push('opened'),
    message: (text) => heard.push(text),
    closed: () => heard.push('closed'),
  });
  return { heard, connection, socket: FakeSocket.opened[0]! };
}

beforeEach(() => {
  FakeSocket.opened = [];
  vi.stubGlobal('WebSocket', FakeSocket);
});

afterEach(() => {
  vi.unstubAllGlobals();
});

describe('[link] the carrier of a page in a browser', () => {
  test('goes to the address it was given, and carries both ways', () => {
    const { heard, connection, socket } = connect();
    expect(socket.address).toBe('ws://deck:7525/deck');
    socket.open();
    socket.onmessage({ data: 'a' });
    connection.send('b');
    expect([heard, socket.sent]).toEqual([['opened', 'a'], ['b']]);
  });

  test('sends nothing before it is open, where a browser would throw', () => {
    const { connection, socket } = connect();
    connection.send('early');
    expect(socket.sent).toEqual([]);
  });

  test('passes on text alone', () => {
    const { heard, socket } = connect();
    socket.onmessage({ data: new ArrayBuffer(2) });
    expect(heard).toEqual([]);
  });

  test('says once that it is closed, and nothing after', () => {
    const { heard, socket } = connect();
    socket.onclose();
    socket.onclose();
    socket.onopen();
    socket.onmessage({ data: 'late' });
    expect(heard).toEqual(['closed']);
  });

  test('after its own close nothing is heard, not even that', () => {
    const { heard, connection, socket } = connect();
    connection.close();
    expect(socket.closes).toBe(1);
    socket.onopen();
    socket.onmessage({ data: 'late' });
    socket.onclose();
    expect(heard).toEqual([]);
  });

  test('is dead where three pings in a row, two seconds apart, go unanswered', () => {
    expect(socketCarrier('ws://deck/deck').patience).toBe(6000);
  });
});

describe('[link] the pause before the host is called again', () => {
  test.each([
    'ws://localhost:7525/deck',
    'ws://127.0.0.1:7525/deck',
    'ws://127.10.255.254/wall',
    'ws://127.0.100.20:7525/deck',
    'ws://[::1]:7525/deck',
  ])('is at most a second and a half where the host is on this machine: %s', (address) => {
    expect(socketCarrier(address).longestPause).toBe(1500);
  });

  test.each([
    'ws://192.168.1.20:7525/deck',
    'ws://localhost.example:7525/deck',
    'ws://deck:7525/ws://localhost/',
    'ws://127.0.0.1.example/deck',
  ])('is at most eight seconds where it is elsewhere: %s', (address) => {
    expect(socketCarrier(address).longestPause).toBe(8000);
  });
});
