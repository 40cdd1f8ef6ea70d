/*
 * The real host on a real port of this machine, for tests, with the ways in which others may come at it.
 */

import { once } from 'node:events';
import { request, type IncomingHttpHeaders } from 'node:http';
import { connect, type Socket } from 'node:net';
import { randomUUID } from 'node:crypto';
import { WebSocket, type ClientOptions } from 'ws';
import { systemClock, type Clock } from '../../../../app/host/time/clock.ts';
import { DeckHost } from '../../../../app/host/deck/deck-host.ts';
import { Library } from '../../../../app/host/library/library.ts';
import type { Records } from '../../../../app/host/records/records.ts';
import { Squads } from '../../../../app/host/squads/squads.ts';
import { FreeFolder } from '../../system/free-folder.ts';
import { FakeDisk } from '../folders/fake-disk.ts';
import { JournalInMemory } from '../folders/journal-in-memory.ts';
import type { Page, Pages } from '../../../../app/host/web/pages.ts';
import { startServer, type DeckServer } from '../../../../app/host/web/server.ts';
import { systemTimers, type Timers } from '../../../../app/host/time/timers.ts';
import type { SessionFile } from '../../../../app/wire/window-bridge.ts';
import { WIRE_VERSION, type FromHost, type FromScreen } from '../../../../app/wire/messages.ts';
import { ToldRun } from './told-run.ts';
import { readFromHost } from '../from-host.ts';
import { recordsOn } from '../folders/records-folder.ts';

export interface Reply {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

export class DeckServerUnderTest {
  readonly host: DeckHost;
  /** Its files are on a disk in memory. */
  readonly library: Library;
  readonly squads: Squads;
  readonly records: Records;
  /** Where all of them have their files. */
  readonly disk: FakeDisk;
  private readonly server: DeckServer;

  private constructor(
    {
      host,
      library,
      squads,
      records,
      disk,
    }: Pick<DeckServerUnderTest, 'host' | 'library' | 'squads' | 'records' | 'disk'>,
    server: DeckServer,
  ) {
    this.host = host;
    this.library = library;
    this.squads = squads;
    this.records = records;
    this.disk = disk;
    this.server = server;
  }

  static async start(
    pages: Pages = new Map<string, Page>(),
    { clock, timers }: { clock: Clock; timers: Timers } = { clock: systemClock(), timers: systemTimers },
    file: SessionFile | null = null,
  ): Promise<DeckServerUnderTest> {
    const host = new DeckHost({ clock, timers, journal: new JournalInMemory(), newId: randomUUID });
    const disk = new FakeDisk();
    const library = new Library({ disk, folder: '/data', wall: () => clock.wall().epochMs });
    const opened = { id: () => host.current()?.id ?? null, letGo: () => host.letGo() };
    const records = recordsOn(disk, { opened, library, now: () => clock.now() });
    // The journal in memory has no file, and touches are kept beside one.
    host.touchBook.keepIn({
      touch(run, touch) {
        if (touch) disk.put(`/data/runs/2026-11-26T19-30-00Z-${run}.jsonl`, Buffer.from(''));
        return records.touch(run, touch);
      },
    });
    const squads = new Squads({ disk, folder: '/data', guard: new FreeFolder() });
    const server = await startServer({ host, clock, timers, pages, library, squads, records, file }, 0);
    return new DeckServerUnderTest({ host, library, squads, records, disk }, server);
  }

  get port(): number {
    return this.server.port;
  }

  get origin(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  close(): Promise<void> {
    return this.server.close('The test is over.');
  }

  /** A request as our own pages make it, save for the headers given; `undefined` leaves one out. */
  ask(
    method: string,
    path: string,
    headers: Record<string, string | undefined> = {},
    body?: string | Buffer,
  ): Promise<Reply> {
    const all = Object.entries({ Origin: this.origin, ...headers }).filter(([, value]) => value !== undefined);
    return new Promise((resolve, reject) => {
      const asked = request(
        { host: '127.0.0.1', port: this.port, path, method, headers: Object.fromEntries(all), agent: false },
        (response) => {
          const chunks: Buffer[] = [];
          response.on('data', (chunk: Buffer) => chunks.push(chunk));
          response.on('end', () => {
            const { statusCode = 0, headers: answered } = response;
            resolve({ status: statusCode, headers: answered, body: Buffer.concat(chunks).toString('utf8') });
          });
          response.on('error', reject);
        },
      );
      asked.on('error', reject);
      asked.end(body);
    });
  }

  /** A bare connection, for what no library would send. */
  async raw(): Promise<Socket> {
    const socket = connect(this.port, '127.0.0.1');
    socket.on('error', () => undefined);
    await once(socket, 'connect');
    return socket;
  }

  /** Asks for a socket; the status with which that is refused, or the open socket. */
  socket(options: ClientOptions = {}, path = '/deck'): Promise<WebSocket | number> {
    const socket = new WebSocket(`ws://127.0.0.1:${this.port}${path}`, { origin: this.origin, ...options });
    return new Promise((resolve, reject) => {
      socket.on('open', () => resolve(socket));
      socket.on('unexpected-response', (_, response) => {
        resolve(response.statusCode ?? 0);
        response.destroy();
      });
      socket.on('error', reject);
    });
  }

  /** A screen that has said hello. */
  async screen(): Promise<ScreenUnderTest> {
    const socket = await this.socket();
    if (typeof socket === 'number') throw new Error(`refused: ${socket}`);
    const screen = new ScreenUnderTest(socket);
    screen.say({ say: 'hello', version: WIRE_VERSION, screen: 'desk' });
    await screen.hears((message) => message.say === 'snapshot');
    return screen;
  }
}

export class ScreenUnderTest {
  readonly socket: WebSocket;
  readonly heard: FromHost[] = [];
  private readonly listeners = new Set<() => void>();

  constructor(socket: WebSocket) {
    this.socket = socket;
    const told = new ToldRun();
    socket.on('message', (data: Buffer) => {
      const message = readFromHost(data.toString('utf8'));
      if (message) this.heard.push(told.hear(message));
      for (const listener of this.listeners) listener();
    });
  }

  say(message: FromScreen): void {
    this.socket.send(JSON.stringify(message));
  }

  /** The first message, heard or to come, that fits. */
  hears(fits: (message: FromHost) => boolean): Promise<FromHost> {
    return new Promise((resolve) => {
      const look = (): void => {
        const found = this.heard.find(fits);
        if (!found) return;
        this.listeners.delete(look);
        resolve(found);
      };
      this.listeners.add(look);
      look();
    });
  }

  /** The code with which the connection was closed; 1006 without one. */
  async closed(): Promise<number> {
    if (this.socket.readyState === WebSocket.CLOSED) return 1006;
    const [code] = (await once(this.socket, 'close')) as [number];
    return code;
  }
}
