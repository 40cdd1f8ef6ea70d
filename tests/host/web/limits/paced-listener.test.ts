/* That a connection which waits is none to the server yet, over a real socket, with Node's own handles and without. */

import { once } from 'node:events';
import { connect, createServer, Server, type AddressInfo, type Socket } from 'node:net';
import { afterEach, describe, expect, test } from 'vitest';
import { Arrivals } from '../../../../app/host/web/limits/arrivals.ts';
import { pace } from '../../../../app/host/web/limits/paced-listener.ts';
import { FakeClock } from '../../../support/clock/fake-clock.ts';

let server: Server;
let arrivals: Arrivals;
const clients: Socket[] = [];

afterEach(() => {
  clients.splice(0).forEach((client) => client.destroy());
  arrivals.close();
  server.close();
});

/** As of a Node that has no such handle any more. */
function withoutHandle(made: Server): Server {
  return new Proxy(made, { get: (of, name) => (name === '_handle' ? null : bound(Reflect.get(of, name), of)) });
}

function bound(value: unknown, of: Server): unknown {
  return typeof value === 'function' ? (value.bind(of) as unknown) : value;
}

describe.each([
  ['with the handles of Node', (made: Server) => made, 200],
  ['without them', withoutHandle, 201],
])('[paced-listener] %s', (_, seen, socketsWhileOneWaits) => {
  async function listening(): Promise<{ readonly clock: FakeClock; readonly heard: string[] }> {
    const clock = new FakeClock();
    const heard: string[] = [];
    server = createServer((socket) => socket.on('data', (said) => heard.push(said.toString())).on('error', () => 0));
    arrivals = new Arrivals(clock, clock.timers);
    pace(seen(server), arrivals);
    await once(server.listen(0, '127.0.0.1'), 'listening');
    return { clock, heard };
  }

  async function call(word: string): Promise<Socket> {
    const client = connect((server.address() as AddressInfo).port, '127.0.0.1').on('error', () => undefined);
    clients.push(client);
    await once(client, 'connect');
    client.write(word);
    return client;
  }

  test('one that waits is heard in its turn, with what it has said meanwhile', async () => {
    const { clock, heard } = await listening();
    for (let n = 0; n < 200; n++) await call('early');
    await expect.poll(() => heard.length).toBe(200);
    await call('late');
    await expect.poll(() => waiting()).toBe(1);
    expect(heard).not.toContain('late');
    expect(await new Promise((done) => server.getConnections((_error, count) => done(count)))).toBe(
      socketsWhileOneWaits,
    );
    clock.advance(25);
    await expect.poll(() => heard.at(-1)).toBe('late');
  });

  test('one too many is hung up on, and so are all that wait when the listener closes', async () => {
    const { heard } = await listening();
    for (let n = 0; n < 200; n++) await call('early');
    const first = await call('waits');
    for (let n = 0; n < 31; n++) await call('waits');
    await expect.poll(() => waiting()).toBe(32);
    const last = await call('waits');
    await expect.poll(() => first.destroyed).toBe(true);
    expect(last.destroyed).toBe(false);
    arrivals.close();
    await expect.poll(() => last.destroyed).toBe(true);
    expect(heard).not.toContain('waits');
  });
});

test('[paced-listener] one that has gone before it could be asked for its address is closed, and no errors are kept', () => {
  const came: unknown[] = [];
  const listener = { onconnection: (...with_: unknown[]) => came.push(with_) };
  server = Object.assign(createServer(), { _handle: listener });
  arrivals = new Arrivals(new FakeClock(), new FakeClock().timers);
  pace(server, arrivals);
  server.emit('listening');
  let closed = 0;
  const gone = { getpeername: () => -107, reset: () => -22, close: () => closed++ };
  listener.onconnection(0, gone);
  listener.onconnection(-24);
  expect([closed, came]).toEqual([1, [[-24]]]);
  Object.assign(server, { _handle: null });
});

function waiting(): number {
  return (Reflect.get(arrivals, 'waiting') as Set<unknown>).size;
}
