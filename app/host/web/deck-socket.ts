/*
 * The socket at /deck through which screens and host talk. The other end may send nothing, read nothing, send too much
 * or vanish without closing.
 */

import { randomUUID } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { WebSocket, WebSocketServer } from 'ws';
import { MESSAGE_LIMIT } from '../../wire/messages.ts';
import type { Clock } from '../time/clock.ts';
import type { DeckHost } from '../deck/deck-host.ts';
import { Doorstep } from './doorstep.ts';
import { isFromOwnPage, ownHost } from './doorkeeper.ts';
import { connectScreen, type ScreenChannel, type Screen } from '../deck/screen.ts';
import type { Timer, Timers } from '../time/timers.ts';

export interface DeckSocket {
  /** Takes over a connection that asks to become a socket; `port` is the one the host listens on. */
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer, port: number): void;
  /** Says goodbye to every screen and accepts no more. */
  close(why: string): void;
  /** Ends the connections that are left. */
  terminate(): void;
}

/** The most screens at once: more than any pool has. Connections that have not said hello are counted separately. */
const MOST_SCREENS = 32;
const MOST_UNGREETED = 32;

/** How often a screen is asked for a sign of life, in ms. A screen that owes two answers is gone. */
const PING_EVERY = 5000;

/** In ms: how long a connection may take to say hello. A page does so with its first message. */
const HELLO_WITHIN = 5000;

/** In ms: how long a screen may take to answer the goodbye when the host hangs up. */
const LAST_WORDS = 1000;

/** "Policy violation" (RFC 6455, 7.4.1): the host does not accept what it was sent. */
const NOT_ACCEPTED = 1008;

export function deckSocket(host: DeckHost, clock: Clock, timers: Timers): DeckSocket {
  const server = new WebSocketServer({
    noServer: true,
    maxPayload: MESSAGE_LIMIT,
    perMessageDeflate: false,
    clientTracking: false,
  });
  const screens = new Map<WebSocket, Screen>();
  const doorstep = new Doorstep(MOST_UNGREETED);
  let closing = false;

  const isFull = (): boolean => Array.from(screens.values()).filter((each) => each.isGreeted()).length >= MOST_SCREENS;

  const connected = (socket: WebSocket): void => {
    const screen = connectScreen(host, clock, carrierOf(socket, timers));
    screens.set(socket, screen);
    const comeIn = doorstep.enter(() => socket.terminate());
    socket.on('message', (data, isBinary) => {
      if (isBinary) screen.dismiss('A message must be text.');
      else if (!screen.isGreeted() && isFull()) screen.dismiss('There are too many screens: close one of them.');
      // It is a buffer as long as the socket is not asked for another kind.
      else screen.receive((data as Buffer).toString('utf8'));
      if (screen.isGreeted()) comeIn();
    });
    socket.on('ping', () => screen.nudged());
    socket.on('pong', () => screen.nudged());
    // A broken frame closes the socket by itself. Without this listener it would also end the program.
    socket.on('error', () => undefined);
    const stopPinging = keepAlive(socket, timers);
    const helloDue = timers.set(() => {
      if (!screen.isGreeted()) screen.dismiss('A screen must say hello within 5 seconds.');
    }, HELLO_WITHIN);
    socket.on('close', () => {
      stopPinging();
      timers.clear(helloDue);
      comeIn();
      screen.gone();
      screens.delete(socket);
    });
  };

  return {
    upgrade(request, socket, head, port) {
      socket.on('error', () => socket.destroy());
      const name = ownHost(request, port);
      if (name === null || !isFromOwnPage(request, name)) return refuse(socket, '403 Forbidden');
      if (request.url !== '/deck') return refuse(socket, '404 Not Found');
      if (closing || isFull()) return refuse(socket, '503 Service Unavailable');
      server.handleUpgrade(request, socket, head, connected);
    },
    close(why) {
      closing = true;
      for (const screen of screens.values()) screen.dismiss(why);
    },
    terminate() {
      for (const socket of screens.keys()) socket.terminate();
    },
  };
}

function carrierOf(socket: WebSocket, timers: Timers): ScreenChannel {
  return {
    isOwnWindow: false,
    waiting: () => socket.bufferedAmount,
    send: (text, sent) => socket.send(text, () => sent()),
    close(why) {
      socket.close(NOT_ACCEPTED, why);
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
function keepAlive(socket: WebSocket, timers: Timers): () => void {
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

function refuse(socket: Duplex, status: string): void {
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`, () => socket.destroy());
}
