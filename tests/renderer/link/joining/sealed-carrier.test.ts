/*
 * A sealed connection against the host's half of the same sealing.
 */

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { KeyGiven } from '../../../../app/wire/sharing/joining.ts';
import { sealedKey } from '../../../../app/wire/sealing/given-key.ts';
import { isProof, type Known } from '../../../../app/wire/sealing/proof.ts';
import { sealedEnd, type SealedEnd } from '../../../../app/wire/sealing/sealed-channel.ts';
import { connectSealed } from '../../../../renderer/link/joining/sealed-carrier.ts';
import { listener } from './line.ts';

const CODE = '7K2QM0H3TZ4RVD8XWB5C';
const GIVEN: KeyGiven = { id: 'a'.repeat(16), key: 'b'.repeat(64), role: 'remote', name: 'Phone 1' };
const NONCES = { screen: '1'.repeat(32), host: '2'.repeat(32) };
const HOST = '192.168.1.20:7525';
const JOINS: Known = { say: 'join', code: CODE };
const RETURNS: Known = { say: 'return', id: GIVEN.id, key: GIVEN.key };

class FakeSocket {
  static readonly OPEN = 1;
  static latest: FakeSocket;
  readyState = 0;
  binaryType = 'blob';
  readonly sent: (string | Uint8Array)[] = [];
  closes = 0;
  onopen: () => void = () => undefined;
  onmessage: (event: { data: unknown }) => void = () => undefined;
  onclose: () => void = () => undefined;

  readonly address: string;

  constructor(address: string) {
    this.address = address;
    FakeSocket.latest = this;
  }

  send(frame: string | Uint8Array): void {
    this.sent.push(frame);
  }

  close(): void {
    this.closes++;
  }

  open(): void {
    this.readyState = FakeSocket.OPEN;
    this.onopen();
  }

  text(message: object): void {
    this.onmessage({ data: JSON.stringify(message) });
  }

  frame(bytes: Uint8Array): void {
    this.onmessage({ data: bytes.slice().buffer });
  }

  /** What was sent as text, read. */
  get said(): unknown[] {
    return this.sent.map((frame) => (typeof frame === 'string' ? (JSON.parse(frame) as unknown) : frame));
  }
}

function connect(known: Known) {
  const { all, heard } = listener();
  const connection = connectSealed(
    { address: `ws://${HOST}/deck`, host: HOST, known, nonce: NONCES.screen, page: 'remote' },
    { ...heard, given: (key) => all.push(`given ${key.name}`), refused: (why) => all.push(`refused: ${why}`) },
  );
  const socket = FakeSocket.latest;
  socket.open();
  return { all, connection, socket };
}

/** Let in by its key. */
function inside() {
  const shown = connect(RETURNS);
  shown.socket.text({ say: 'prove', nonce: NONCES.host });
  const host = sealedEnd('host', GIVEN.key, NONCES);
  shown.socket.frame(host.seal('{"say":"welcome"}'));
  return { ...shown, host };
}

const opened = (host: SealedEnd, frame: string | Uint8Array | undefined): string | null =>
  frame instanceof Uint8Array ? host.open(frame) : null;

beforeEach(() => vi.stubGlobal('WebSocket', FakeSocket));
afterEach(() => void vi.unstubAllGlobals());

describe('[joining] a sealed connection', () => {
  test('joins by its code: proves it without saying it, opens the key, and is in', () => {
    const { all, connection, socket } = connect(JOINS);
    expect(socket.address).toBe(`ws://${HOST}/deck`);
    expect(socket.said).toEqual([{ say: 'join', version: 1, nonce: NONCES.screen, page: 'remote' }]);
    socket.text({ say: 'prove', nonce: NONCES.host });
    const { mac } = socket.said[1] as { mac: string };
    expect(isProof(mac, JOINS, NONCES, HOST)).toBe(true);
    socket.text({ say: 'key', sealed: sealedKey(GIVEN, CODE, NONCES) });
    expect(all).toEqual(['given Phone 1', 'opened']);
    const host = sealedEnd('host', GIVEN.key, NONCES);
    connection.send('{"say":"hello"}');
    expect(opened(host, socket.sent[2])).toBe('{"say":"hello"}');
    socket.frame(host.seal('{"say":"pong"}'));
    expect(all[2]).toBe('{"say":"pong"}');
    expect(JSON.stringify(socket.said.slice(0, 2))).not.toContain(CODE);
  });

  test('returns by its key, which is never said, and is in with a sealed welcome', () => {
    const { all, socket, connection, host } = inside();
    expect(socket.said[0]).toEqual({ say: 'return', version: 1, id: GIVEN.id, nonce: NONCES.screen });
    expect(all).toEqual(['opened']);
    connection.send('a');
    connection.send('b');
    expect([opened(host, socket.sent[2]), opened(host, socket.sent[3])]).toEqual(['a', 'b']);
    expect(JSON.stringify(socket.said.slice(0, 2))).not.toContain(GIVEN.key);
  });

  test('says nothing before it is in, and nothing of it once it is closed', () => {
    const { all, socket, connection } = connect(RETURNS);
    connection.send('early');
    expect(socket.sent.length).toBe(1);
    connection.close();
    socket.text({ say: 'bye', why: 'x', again: true });
    socket.onclose();
    expect([all, socket.closes]).toEqual([[], 1]);
  });

  test('hears why what it knows is not valid, and hangs up', () => {
    const { all, socket } = connect(JOINS);
    socket.text({ say: 'bye', why: 'This code is no longer valid.', again: true });
    expect([all, socket.closes]).toEqual([['refused: This code is no longer valid.', 'closed'], 1]);
  });

  test('hears why the host has no room, which the link says', () => {
    const { all, socket } = connect(RETURNS);
    socket.text({ say: 'bye', why: 'There are too many screens.' });
    expect(all).toEqual(['{"say":"bye","why":"There are too many screens."}', 'closed']);
  });

  test.each([
    ['a welcome that is not sealed', { say: 'welcome' }],
    ['a key for somebody who has one', { say: 'key', sealed: sealedKey(GIVEN, CODE, NONCES) }],
    ['a second question', { say: 'prove', nonce: NONCES.host }],
    ['digits', { say: 'digits', digits: '4071', left: 1 }],
    ['anything else', { say: 'snapshot' }],
  ])('hangs up at %s', (_, message) => {
    const { all, socket } = connect(RETURNS);
    socket.text({ say: 'prove', nonce: NONCES.host });
    socket.text(message);
    expect([all, socket.closes]).toEqual([['closed'], 1]);
  });

  test('hangs up where the key was sealed under another code: that is not the host that showed it', () => {
    const { all, socket } = connect(JOINS);
    socket.text({ say: 'prove', nonce: NONCES.host });
    socket.text({ say: 'key', sealed: sealedKey(GIVEN, '0'.repeat(20), NONCES) });
    expect(all).toEqual(['closed']);
  });

  test('hangs up at a frame before anything was proved', () => {
    const { all, socket } = connect(RETURNS);
    socket.frame(sealedEnd('host', GIVEN.key, NONCES).seal('{"say":"welcome"}'));
    expect(all).toEqual(['closed']);
  });

  test('hangs up at a frame that was changed, doubled or not sealed at all', () => {
    for (const spoil of [
      (socket: FakeSocket, host: SealedEnd) => socket.frame(host.seal('a').map((byte) => byte ^ 1)),
      (socket: FakeSocket, host: SealedEnd) => {
        const frame = host.seal('a');
        socket.frame(frame);
        socket.frame(frame);
      },
      (socket: FakeSocket) => socket.text({ say: 'bye', why: 'x', again: true }),
    ]) {
      const { all, socket, host } = inside();
      spoil(socket, host);
      expect(all[all.length - 1]).toBe('closed');
      expect(all.filter((each) => each !== 'a')).toEqual(['opened', 'closed']);
    }
  });
});
