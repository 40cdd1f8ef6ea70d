/*
 * Screens in a process of their own, as bare as they can be, so that what is measured is the host: they say hello, ping
 * as pages do, and note when each command reaches them. The monotonic clock of a machine is the same in all processes.
 */

import { WebSocket } from 'ws';
import { WIRE_VERSION, type FromHost, type ScreenKind, type Snapshot } from '../../../app/wire/messages.ts';
import { withCommands } from '../../../app/wire/snapshot.ts';

/** What the bench says to this process, and hears of it. */
export type ToClients = { readonly connect: number; readonly port: number } | { readonly report: true };
export type FromClients =
  | { readonly connected: number }
  | { readonly late: readonly number[]; readonly counts: readonly number[]; readonly whole: number };

/** In ms. */
const PING_PACE = 2000;
const BURST = { pings: 8, pace: 60 };
const FIRST_PAUSE = 250;

type Heard = FromHost | { readonly say: 'tick'; readonly last: number; readonly count: number };

class BareScreen {
  /** How late each command came, in ms; of one that was given before it connected none. */
  readonly late: number[] = [];
  count = 0;
  wholes = 0;
  private readonly port: number;
  private readonly kind: ScreenKind;
  private readonly right: () => void;
  private told: Snapshot | null = null;
  private timer: NodeJS.Timeout | null = null;
  private pings = 0;
  private isRight = false;

  /** right: called on each connection when the run and the time are known. */
  constructor(port: number, kind: ScreenKind, right: () => void) {
    this.port = port;
    this.kind = kind;
    this.right = right;
    this.connect();
  }

  private connect(): void {
    const socket = new WebSocket(`ws://127.0.0.1:${this.port}`, { perMessageDeflate: false });
    this.told = null;
    this.pings = 0;
    this.isRight = false;
    socket.on('open', () => {
      socket.send(JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: this.kind }));
      this.ping(socket);
    });
    socket.on('message', (data: Buffer) => this.heard(JSON.parse(data.toString('utf8')) as Heard));
    socket.on('error', () => undefined);
    socket.on('close', () => {
      if (this.timer) clearTimeout(this.timer);
      setTimeout(() => this.connect(), Math.random() * FIRST_PAUSE);
    });
  }

  private ping(socket: WebSocket): void {
    socket.send(JSON.stringify({ say: 'ping', n: this.pings++, t1: now() }));
    this.timer = setTimeout(() => this.ping(socket), this.pings < BURST.pings ? BURST.pace : PING_PACE);
  }

  private heard(message: Heard): void {
    const at = now();
    if (message.say === 'tick') this.heardTick(message, at);
    if (message.say === 'snapshot') {
      this.told = message;
      this.wholes++;
    }
    if (message.say === 'commands') {
      this.told = withCommands(this.told, message);
      for (const command of message.commands) this.late.push(at - this.told!.run!.openedAt - command.at);
    }
    if (message.say === 'snapshot' || message.say === 'commands') this.count = this.told!.run!.commands.length;
    if (message.say === 'pong' && this.told) this.rightNow();
  }

  private heardTick({ last, count }: { readonly last: number; readonly count: number }, at: number): void {
    if (this.count > 0 && count > this.count) this.late.push(at - last);
    this.count = count;
    this.rightNow();
  }

  private rightNow(): void {
    if (this.isRight) return;
    this.isRight = true;
    this.right();
  }
}

let screens: readonly BareScreen[] = [];

process.on('message', (message: ToClients) => {
  if ('report' in message)
    return tell({
      late: screens.flatMap((screen) => screen.late.splice(0)),
      counts: screens.map(({ count }) => count),
      whole: screens.reduce((sum, { wholes }) => sum + wholes, 0),
    });
  let right = 0;
  const all = message.connect;
  // One coach, two remotes, and walls.
  const kindOf = (index: number): ScreenKind => (all < 3 || index > 2 ? 'wall' : index === 0 ? 'desk' : 'remote');
  const isRight = (): void => {
    right++;
    if (right % all === 0) tell({ connected: right / all });
  };
  screens = Array.from({ length: all }, (_, index) => new BareScreen(message.port, kindOf(index), isRight));
});

function tell(message: FromClients): void {
  process.send!(message);
}

function now(): number {
  const [seconds, nanoseconds] = process.hrtime();
  return seconds * 1000 + nanoseconds / 1e6;
}
