/*
 * A host with a run that has 400 commands behind it, and a bare socket for its screens: who may come in is measured
 * elsewhere. Beside it the naive way: every tick the whole of what is to be seen goes to every screen.
 */

import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { WebSocketServer, type WebSocket } from 'ws';
import { view } from '../../../app/core/run/view.ts';
import { DeckHost } from '../../../app/host/deck/deck-host.ts';
import { connectScreen } from '../../../app/host/deck/telling/screen.ts';
import { systemClock, type Clock } from '../../../app/host/time/clock.ts';
import { systemTimers } from '../../../app/host/time/timers.ts';
import { JournalInMemory } from '../../support/host/folders/journal-in-memory.ts';

export const BEHIND = 400;

/** In ms: a clock that shows tenths of a second needs no less. */
const TICK = 100;

const TEXT = 'Harbour squad\nlane 1\nlane 2\nlane 3\nlane 4\nlane 5\nlane 6\nMain set\n400 x 50 @ 1:00\n';

export type Way = 'commands' | 'naive';

export class BenchDeck {
  readonly clock: Clock = systemClock();
  readonly host = new DeckHost({
    clock: this.clock,
    timers: systemTimers,
    journal: new JournalInMemory(),
    newId: () => 'run',
  });
  private readonly way: Way;
  private readonly sockets = new Set<WebSocket>();
  private readonly server = new WebSocketServer({ host: '127.0.0.1', port: 0, perMessageDeflate: false });
  private ticking: NodeJS.Timeout | null = null;
  private given = 0;

  private constructor(way: Way) {
    this.way = way;
    this.server.on('connection', (socket) => this.connected(socket));
  }

  static async open(way: Way): Promise<BenchDeck> {
    const deck = new BenchDeck(way);
    await once(deck.server, 'listening');
    await deck.host.open({ text: TEXT, lanesText: null }, { replace: true });
    await deck.host.command('start', { do: 'start' });
    while (deck.count() < BEHIND) await deck.give();
    if (way === 'naive') deck.ticking = setInterval(() => deck.tick(), TICK);
    return deck;
  }

  get port(): number {
    return (this.server.address() as AddressInfo).port;
  }

  /** How many commands the run has. */
  count(): number {
    return this.host.current()!.commands.length;
  }

  /** Lane 6 gets out, and in again. */
  async give(): Promise<void> {
    const fields = { do: this.given++ % 2 === 0 ? 'lane-out' : 'lane-in', lanes: [6] };
    const answer = await this.host.command(`given-${this.given}`, fields);
    if (!answer.ok) throw new Error(`${fields.do}: ${answer.why}`);
  }

  /** The network is gone for all of them at once. */
  cutAll(): void {
    for (const socket of this.sockets) socket.terminate();
  }

  close(): void {
    if (this.ticking) clearInterval(this.ticking);
    this.cutAll();
    this.server.close();
  }

  private connected(socket: WebSocket): void {
    this.sockets.add(socket);
    socket.on('close', () => this.sockets.delete(socket));
    socket.on('error', () => undefined);
    if (this.way === 'naive') return;
    const screen = connectScreen(this.host, this.clock, {
      isOwnWindow: false,
      waiting: () => socket.bufferedAmount,
      send: (text, sent) => socket.send(text, () => sent()),
      close: () => socket.close(),
      terminate: () => socket.terminate(),
    });
    socket.on('message', (data: Buffer) => screen.receive(data.toString('utf8')));
    socket.on('close', () => screen.gone());
  }

  private tick(): void {
    const run = this.host.current()!;
    const { at } = run.commands.at(-1)!;
    const seen = view(run.state, Math.floor(this.clock.now() - run.openedAt));
    for (const socket of this.sockets)
      socket.send(
        JSON.stringify({ say: 'tick', last: run.openedAt + at, count: run.commands.length, lanes: seen.lanes }),
      );
  }
}
