/*
 * The built program as a process of its own, serving a data folder, with the few things a test says to it.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { WebSocket } from 'ws';
import { WIRE_VERSION, type FromHost, type Snapshot } from '../../../app/wire/messages.ts';
import { readFromHost } from './from-host.ts';

const PROGRAM = fileURLToPath(new URL('../../../dist/lanecall.mjs', import.meta.url));

export interface Ending {
  readonly status: number | null;
  readonly stderr: string;
}

export interface Answered {
  readonly ok: boolean;
  readonly at: number | null;
  readonly why: string | null;
}

/** What a screen sees at one moment, and what the run's time less the test's own is then. */
export interface Sight {
  readonly snapshot: Snapshot;
  readonly ahead: number;
}

export class ServedHost {
  readonly child: ChildProcess;
  origin = '';
  /** Where it shares: address and port on the network, and the address with a claim for the coach's page; null if not. */
  shared: { readonly network: string; readonly claim: string } | null = null;
  stderr = '';

  private constructor(child: ChildProcess) {
    this.child = child;
    child.stderr?.on('data', (chunk: Buffer) => (this.stderr += chunk.toString()));
  }

  /** Resolves when it serves; rejects where it ends instead. `shell` runs before it, in its process; `load`: a module before it. */
  static async start(
    data: string,
    { session = null as string | null, port = 0, shell = '', share = false, load = null as URL | null } = {},
  ): Promise<ServedHost> {
    const flags = [...(session === null ? [] : ['-']), ...(share ? ['--share'] : [])];
    const args = ['serve', ...flags, '--port', String(port), '--data', data];
    const node = [process.execPath, ...(load === null ? [] : ['--import', load.href]), PROGRAM, ...args];
    const [program, ...words] = shell === '' ? node : ['bash', '-c', `${shell}; exec "$@"`, 'bash', ...node];
    const host = new ServedHost(spawn(program!, words, { stdio: ['pipe', 'pipe', 'pipe'] }));
    host.child.stdin!.end(session ?? '');
    const ended = once(host.child, 'close').then(() => {
      throw new Error(`the host has ended: ${host.stderr}`);
    });
    ended.catch(() => undefined);
    let said = '';
    host.child.stdout!.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      host.shared = sharedIn(said);
    });
    while (!/ is at .*\n/.test(said) || (share && !host.shared)) {
      await Promise.race([once(host.child.stdout!, 'data'), ended]);
    }
    host.origin = /http:\/\/127\.0\.0\.1:\d+/.exec(said)![0];
    return host;
  }

  /** One that is killed so many ms after its process began, whatever it was about. */
  static async killedEarly(data: string, after: number): Promise<void> {
    const child = spawn(process.execPath, [PROGRAM, 'serve', '--port', '0', '--data', data], { stdio: 'ignore' });
    const gone = once(child, 'exit');
    await pause(after);
    child.kill('SIGKILL');
    await gone;
  }

  /** One that is expected to end by itself. */
  static async refused(data: string, shell = ':'): Promise<Ending> {
    const words = ['bash', process.execPath, PROGRAM, 'serve', '--port', '0', '--data', data];
    const child = spawn('bash', ['-c', `${shell}; exec "$@"`, ...words], { stdio: 'pipe' });
    let stderr = '';
    child.stderr.on('data', (chunk: Buffer) => (stderr += chunk.toString()));
    const [status] = (await once(child, 'close')) as [number | null];
    return { status, stderr };
  }

  kill(): Promise<void> {
    return this.end('SIGKILL');
  }

  async end(signal: NodeJS.Signals): Promise<void> {
    if (this.child.exitCode !== null || this.child.signalCode !== null) return;
    const gone = once(this.child, 'exit');
    this.child.kill(signal);
    await gone;
  }

  /** As a page posts it; rejects where the host dies before it has answered. */
  async command(id: string, command: Readonly<Record<string, unknown>>): Promise<Answered> {
    const response = await this.post('/command', { say: 'command', id, command });
    return (await response.json()) as Answered;
  }

  post(path: string, body: object): Promise<Response> {
    return asPage(this.origin, 'POST', path, body);
  }

  async sight(): Promise<Sight> {
    const socket = new WebSocket(`${this.origin.replace('http', 'ws')}/deck`, { origin: this.origin });
    const heard = listen(socket);
    await once(socket, 'open');
    socket.send(JSON.stringify({ say: 'hello', version: WIRE_VERSION, screen: 'desk' }));
    const snapshot = await heard('snapshot');
    const t1 = performance.now();
    socket.send(JSON.stringify({ say: 'ping', n: 1, t1 }));
    const pong = await heard('pong');
    const middle = (t1 + performance.now()) / 2;
    socket.close();
    return { snapshot, ahead: pong.t2 - (snapshot.run?.openedAt ?? 0) - middle };
  }
}

/** What the program prints where it shares. */
function sharedIn(said: string): ServedHost['shared'] {
  const network = /^Televisions open http:\/\/([\d.:]+)\//m.exec(said)?.[1];
  const claim = /http:\S+#\S+/.exec(said)?.[0];
  return network !== undefined && claim !== undefined ? { network, claim } : null;
}

/** A request as a page of the host at that address makes it. */
export function asPage(origin: string, method: 'POST' | 'PUT', path: string, body: object): Promise<Response> {
  return fetch(origin + path, {
    method,
    // A connection kept from a host that is gone would fail the first request to the next.
    headers: { 'Content-Type': 'application/json', Origin: origin, Connection: 'close' },
    body: JSON.stringify(body),
  });
}

function listen(socket: WebSocket) {
  const messages: FromHost[] = [];
  const waiting = new Set<() => void>();
  socket.on('message', (data: Buffer) => {
    const message = readFromHost(data.toString());
    if (message) messages.push(message);
    waiting.forEach((look) => look());
  });
  return <Say extends FromHost['say']>(say: Say): Promise<Extract<FromHost, { say: Say }>> =>
    new Promise((resolve) => {
      const look = (): void => {
        const found = messages.find((message) => message.say === say);
        if (!found) return;
        waiting.delete(look);
        resolve(found as Extract<FromHost, { say: Say }>);
      };
      waiting.add(look);
      look();
    });
}
