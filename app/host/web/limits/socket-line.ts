/*
 * One WebSocket as the doors know it. The other end may send nothing, read nothing, or vanish without closing.
 */

import { randomUUID } from 'node:crypto';
import type { WebSocket } from 'ws';
import type { Line } from '../../sharing/doors/door.ts';
import type { Timer, Timers } from '../../time/timers.ts';

/** How often the other end is asked for a sign of life, in ms. One that owes two answers is gone. */
const PING_EVERY = 5000;

/** In ms: how long the other end may take to answer the goodbye. */
const LAST_WORDS = 80;

/** "Policy violation" (RFC 6455, 7.4.1): the host does not accept what it was sent. */
const NOT_ACCEPTED = 1008;

/** In bytes: a close frame has room for no more (RFC 6455, 5.5). */
const LONGEST_REASON = 123;

export function lineOf(
  socket: WebSocket,
  timers: Timers,
  about: Pick<Line, 'host' | 'from' | 'socket' | 'listener'>,
): Line {
  let isClosing = false;
  return {
    ...about,
    waiting: () => socket.bufferedAmount,
    send: (frame, sent) => socket.send(frame, () => sent()),
    close(why) {
      if (isClosing) return;
      isClosing = true;
      socket.close(NOT_ACCEPTED, Buffer.byteLength(why) > LONGEST_REASON ? '' : why);
      const timer = timers.set(() => socket.terminate(), LAST_WORDS);
      socket.on('close', () => timers.clear(timer));
    },
    terminate: () => socket.terminate(),
  };
}

/**
 * Ends a socket whose other end has not answered two pings in a row. An answer counts only if it repeats its ping. A
 * ping waits behind everything sent before it, so an end that reads nothing, or too slowly, cannot answer in time.
 */
export function keepAlive(socket: WebSocket, timers: Timers): () => void {
  let question = '';
  let owes = 0;
  let timer: Timer;
  socket.on('pong', (answer: Buffer) => {
    if (answer.toString('utf8') === question) owes = 0;
  });
  const ask = (): void => {
    if (owes >= 2) return socket.terminate();
    owes++;
    question = randomUUID();
    socket.ping(question);
    timer = timers.set(ask, PING_EVERY);
  };
  timer = timers.set(ask, PING_EVERY);
  return () => timers.clear(timer);
}
