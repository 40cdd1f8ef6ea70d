/*
 * Somebody on the pool's network who means no good, as a process of its own: it does one thing for so many ms, from 16
 * addresses, and prints how often. `attacker.ts KIND HOST MS`.
 */

import { randomBytes } from 'node:crypto';
import { connect, type Socket } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { WebSocket } from 'ws';
import { ATTACKS } from './attacks.ts';

const [kind, host, ms] = process.argv.slice(2) as [string, string, string];
const [address, port] = host.split(':') as [string, string];
const until = performance.now() + Number(ms);

/** In ms: how long it waits to be hung up on before it tries again, with junk and frames, and with headers. */
const PATIENCE = 80;
const PATIENCE_OF_HEADERS = 400;

let done = 0;

const from = (n: number): string => `10.77.3.${1 + (n % 16)}`;
const isTime = (): boolean => performance.now() < until;

const attacks: Readonly<Record<string, () => Promise<void>>> = {
  [ATTACKS[0]]: silent,
  [ATTACKS[1]]: junk,
  [ATTACKS[2]]: largeFrames,
  [ATTACKS[3]]: headers,
};

await attacks[kind]!();
process.stdout.write(`${done}\n`);
process.exit(0);

async function silent(): Promise<void> {
  for (let n = 0; n < 1000; n++) {
    open(n);
    done++;
    if (n % 50 === 49) await pause(20);
  }
  while (isTime()) await pause(100);
}

async function junk(): Promise<void> {
  for (let n = 0; n < 10_000 && isTime(); n += 100) {
    await Promise.all(
      Array.from({ length: 100 }, async (_, each) => {
        const raw = tcp(n + each);
        raw.write(randomBytes(512));
        await Promise.race([gone(raw), pause(PATIENCE)]);
        raw.destroy();
        done++;
      }),
    );
  }
}

async function largeFrames(): Promise<void> {
  const frame = Buffer.alloc(1024 * 1024, 'x');
  while (isTime()) {
    const socket = open(done);
    const closed = new Promise<void>((resolve) => {
      socket.on('open', () => socket.send(frame));
      socket.on('close', resolve);
    });
    await Promise.race([closed, pause(PATIENCE)]);
    socket.terminate();
    done++;
  }
}

async function headers(): Promise<void> {
  await Promise.all(
    Array.from({ length: 200 }, async (_, n) => {
      while (isTime()) {
        const raw = tcp(n);
        raw.write(`GET / HTTP/1.1\r\nHost: ${host}\r\n`);
        let isOpen = true;
        raw.on('close', () => (isOpen = false));
        const end = performance.now() + PATIENCE_OF_HEADERS;
        while (isOpen && isTime() && performance.now() < end) {
          raw.write(`X-${done}: ${'y'.repeat(200)}\r\n`);
          await pause(5);
        }
        raw.destroy();
        done++;
      }
    }),
  );
}

function open(n: number): WebSocket {
  const socket = new WebSocket(`ws://${host}/deck`, { origin: `http://${host}`, localAddress: from(n) });
  socket.on('error', () => undefined);
  return socket;
}

function tcp(n: number): Socket {
  const raw = connect({ host: address, port: Number(port), localAddress: from(n) });
  raw.on('error', () => undefined);
  raw.resume();
  return raw;
}

function gone(raw: Socket): Promise<void> {
  return new Promise((resolve) => raw.on('close', () => resolve()));
}
