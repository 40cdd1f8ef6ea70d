/*
 * The sockets through which screens and host talk, of one listener: `/deck`, and on the network `/wall` too. Who comes
 * has a place for a short time until it is known who that is; from then on it is a screen like all others.
 */

import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { WebSocketServer, type WebSocket } from 'ws';
import { SOCKETS } from '../../wire/sharing/joining.ts';
import { MESSAGE_LIMIT, SEALED_LIMIT } from '../../wire/messages.ts';
import type { ClockQuality } from '../../wire/sharing/sharing.ts';
import type { Company } from '../deck/telling/company.ts';
import type { DeckHost } from '../deck/deck-host.ts';
import { connectScreen, type Screen, type ScreenChannel } from '../deck/telling/screen.ts';
import type { Attendance } from '../sharing/devices/attendance.ts';
import type { Inside, Line, Reception, Visit } from '../sharing/doors/door.ts';
import { THIS_MACHINE, type Guest } from '../sharing/doors/guest.ts';
import type { Clock } from '../time/clock.ts';
import type { Timer, Timers } from '../time/timers.ts';
import type { Doorstep, Place } from './limits/doorstep.ts';
import { keepAlive, lineOf } from './limits/socket-line.ts';
import { TokenBucket } from './limits/token-bucket.ts';

/** Where others come in while the host shares. */
export interface Entrance {
  isOn(): boolean;
  readonly reception: Reception;
  readonly attendance: Attendance;
}

export interface SocketPorts {
  readonly host: DeckHost;
  readonly clock: Clock;
  readonly timers: Timers;
  readonly listener: Line['listener'];
  readonly company: Company;
  /** Null where nothing can be shared. */
  readonly entrance: Entrance | null;
  /** The places of those of whom it is not known yet who they are. */
  readonly doorstep: Doorstep;
  /** Somebody from an address sent far more than a joining takes. */
  readonly offended?: (from: string) => void;
  /** The Host header of a request that may open a socket; null for one that may not. */
  readonly hostOf: (request: IncomingMessage) => string | null;
}

export interface ScreenSockets {
  /** Takes over a connection that asks to become a socket. */
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void;
  /** Says goodbye to every screen and accepts no more. */
  close(why: string): void;
  /** Ends the connections that are left. */
  terminate(): void;
}

/** The most screens of this machine at once. */
const MOST_SCREENS = 32;

/** In ms: how long a connection may take to say who it is, and then to say hello. A page does so at once. */
const KNOWN_WITHIN = 5000;

/** The longest frame of somebody who has not come in, and all that they may send, in bytes. */
const DOOR_LIMIT = 4096;
const DOOR_MOST = 16_384;

/** Frames a second, and how many may come at once, before somebody has come in. Then the screen counts. */
const FRAME_RATE = { perSecond: 20, burst: 40 };

export function screenSockets(ports: SocketPorts): ScreenSockets {
  const options = { noServer: true, perMessageDeflate: false, clientTracking: false };
  const servers = {
    [SOCKETS.deck]: new WebSocketServer({ ...options, maxPayload: ports.entrance ? SEALED_LIMIT : MESSAGE_LIMIT }),
    [SOCKETS.wall]: new WebSocketServer({ ...options, maxPayload: MESSAGE_LIMIT }),
  };
  const open = new Set<OpenSocket>();
  let closing = false;

  const isFull = (): boolean =>
    ports.listener === 'machine' && [...open].filter((each) => each.isGreeted()).length >= MOST_SCREENS;

  const pathOf = ({ url }: IncomingMessage): keyof typeof servers | null => {
    if (url === SOCKETS.deck) return SOCKETS.deck;
    return url === SOCKETS.wall && ports.listener === 'network' ? SOCKETS.wall : null;
  };

  return {
    upgrade(request, stream, head) {
      stream.on('error', () => stream.destroy());
      const host = ports.hostOf(request);
      if (host === null) return refuse(stream, '403 Forbidden');
      const path = pathOf(request);
      if (path === null) return refuse(stream, '404 Not Found');
      if (closing || isFull()) return refuse(stream, '503 Service Unavailable');
      const from = request.socket.remoteAddress ?? '';
      const about = { host, from, socket: path === SOCKETS.wall ? 'wall' : 'deck', listener: ports.listener } as const;
      servers[path].handleUpgrade(request, stream, head, (socket) => {
        const line = lineOf(socket, ports.timers, about);
        const opened = new OpenSocket(socket, line, ports, isFull);
        open.add(opened);
        opened.weigh(stream);
        socket.on('close', () => open.delete(opened));
      });
    },
    close(why) {
      closing = true;
      for (const each of open) each.dismiss(why);
    },
    terminate() {
      for (const each of open) each.terminate();
    },
  };
}

class OpenSocket {
  private readonly line: Line;
  private readonly ports: SocketPorts;
  private readonly isFull: () => boolean;
  private readonly bucket: TokenBucket;
  private readonly place: Place;
  private screen: Screen | null = null;
  private visit: Visit | null = null;
  private isInside = false;
  private takesLarge = false;
  private leave: () => void = () => undefined;
  private due: Timer;

  constructor(socket: WebSocket, line: Line, ports: SocketPorts, isFull: () => boolean) {
    this.line = line;
    this.ports = ports;
    this.isFull = isFull;
    const { clock, timers, doorstep } = ports;
    this.bucket = new TokenBucket(FRAME_RATE, clock.now());
    this.place = doorstep.enter(() => line.terminate(), line.from);
    this.due = timers.set(() => this.tooLate(), KNOWN_WITHIN);
    if (line.listener === 'machine' && !ports.entrance?.isOn()) this.comeIn(THIS_MACHINE, plainChannel(line));
    socket.on('message', (data, isBinary) => this.hear(data as Buffer, isBinary));
    socket.on('ping', () => this.nudged());
    socket.on('pong', () => this.nudged());
    // A broken frame closes the socket by itself. Without this listener it would also end the program.
    socket.on('error', () => undefined);
    const stopPinging = keepAlive(socket, timers);
    socket.on('close', () => {
      stopPinging();
      timers.clear(this.due);
      this.place.leave();
      this.leave();
      this.visit?.gone();
      this.screen?.gone();
    });
  }

  /** Ends who sends too much before coming in, before a long frame is there whole and has to be read. */
  weigh(stream: Duplex): void {
    let bytes = 0;
    const count = (chunk: Buffer): void => {
      bytes += chunk.length;
      if (this.isInside) stream.off('data', count);
      else if (bytes > DOOR_MOST) {
        stream.off('data', count);
        this.ports.offended?.(this.line.from);
        this.line.terminate();
      }
    };
    stream.on('data', count);
  }

  isGreeted(): boolean {
    return this.screen?.isGreeted() ?? false;
  }

  dismiss(why: string): void {
    if (this.screen) this.screen.dismiss(why);
    else this.line.close(why);
  }

  terminate(): void {
    this.line.terminate();
  }

  private hear(data: Buffer, isBinary: boolean): void {
    if (this.isAtDoor(data, isBinary)) return this.hearAtDoor(data, isBinary);
    if (data.length > MESSAGE_LIMIT && !this.takesLarge) return this.dismiss('That message is too long.');
    if (this.visit) this.visit.receive(isBinary ? data : data.toString('utf8'));
    else if (isBinary) this.dismiss('A message must be text.');
    else if (!this.isGreeted() && this.isFull()) this.dismiss('There are too many screens: close one of them.');
    else this.screen!.receive(data.toString('utf8'));
    this.settle();
  }

  /** A page of this machine may come to the door too: with a key that it has, or because it needs one now. */
  private isAtDoor(data: Buffer, isBinary: boolean): boolean {
    const { entrance } = this.ports;
    if (this.visit || !entrance) return this.visit !== null && !this.isInside;
    if (this.isGreeted()) return false;
    return this.screen === null || entrance.isOn() || (!isBinary && isOfDoor(data));
  }

  private hearAtDoor(data: Buffer, isBinary: boolean): void {
    const { entrance, clock } = this.ports;
    if (!this.bucket.take(clock.now())) return this.line.close('Too many messages.');
    if (data.length > DOOR_LIMIT) return this.line.close('That message is too long.');
    if (!this.visit) {
      this.leave();
      this.screen?.gone();
      this.screen = null;
      this.isInside = false;
      this.visit = entrance!.reception.meet(
        this.line,
        (guest, channel) => this.comeIn(guest, channel),
        (ms) => {
          this.mayLast(ms);
          this.place.spare();
        },
      );
    }
    this.visit.receive(isBinary ? data : data.toString('utf8'));
    this.settle();
  }

  private comeIn(guest: Guest, channel: ScreenChannel): Inside {
    const { host, clock, company, entrance } = this.ports;
    let quality: ClockQuality | null = null;
    const heardClock = (heard: ClockQuality): void => {
      quality = heard;
      entrance?.attendance.news();
    };
    const screen = connectScreen(host, clock, { ...channel, heardClock }, guest, company);
    this.screen = screen;
    this.isInside = true;
    this.takesLarge = guest.role === 'tablet' || (guest.role === 'coach' && guest.device !== null);
    this.mayLast(KNOWN_WITHIN);
    const { attendance } = entrance ?? {};
    if (guest.device !== null) this.place.leave();
    if (attendance && !attendance.hasRoom(guest)) {
      screen.dismiss('There are too many screens of this kind: close one of them.');
    } else if (attendance) {
      const listener = this.line.listener;
      this.leave = attendance.come({
        guest: () => screen.guest(),
        listener,
        kind: () => screen.kind(),
        clock: () => quality,
        dismiss: (why, further) => screen.dismiss(why, further),
      });
    }
    return { receive: (text) => screen.receive(text) };
  }

  /** So many ms from now on, until it has said hello. */
  private mayLast(ms: number): void {
    const { timers } = this.ports;
    timers.clear(this.due);
    this.due = timers.set(() => this.tooLate(), ms);
  }

  private tooLate(): void {
    if (!this.isGreeted()) this.dismiss('A screen must say hello within 5 seconds.');
  }

  private settle(): void {
    if (this.isGreeted()) this.place.leave();
  }

  private nudged(): void {
    if (this.isInside && this.screen) this.screen.nudged();
    else if (!this.bucket.take(this.ports.clock.now())) this.line.close('Too many messages.');
  }
}

/** The channel of one whose frames are not sealed. */
function plainChannel(line: Line): ScreenChannel {
  return {
    isOwnWindow: false,
    waiting: () => line.waiting(),
    send: (text, sent) => line.send(text, sent),
    close: (why) => line.close(why),
    terminate: () => line.terminate(),
  };
}

/** Whether a text is for the door: `hello`, and all that follows it, is not. */
function isOfDoor(data: Buffer): boolean {
  return /^\s*\{\s*"say"\s*:\s*"(join|return)"/.test(data.subarray(0, 64).toString('utf8'));
}

function refuse(stream: Duplex, status: string): void {
  stream.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`, () => stream.destroy());
}
