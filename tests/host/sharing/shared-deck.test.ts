/* A real host that shares: its listeners, who may do what at them, and what the coach's windows are told. */

import { request } from 'node:http';
import { connect, createServer } from 'node:net';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';

import { WebSocket } from 'ws';
import type { SharedDevice } from '../../../app/wire/sharing/sharing.ts';
import { DoorSocket } from '../../support/host/sharing/door-socket.ts';
import { ADDRESS, SharedDeck } from '../../support/host/deck/shared-deck.ts';

let deck: SharedDeck;

beforeEach(async () => {
  deck = await SharedDeck.start();
  await deck.host.open({ text: 'lane 1 Ana\nSquad\n8 x 50 @ 1:00\n', lanesText: null }, { replace: false });
});
afterEach(() => deck.close());

type Headers = Readonly<Record<string, string>>;

/** The status of a request to the network's listener, and its body. */
function ask(method: string, path: string, headers: Headers = {}, host = ADDRESS) {
  return new Promise<{ status: number; body: string; headers: Headers }>((resolve, reject) => {
    const asked = request({ host, port: deck.server.port, path, method, headers, agent: false }, (response) => {
      let body = '';
      response.on('data', (chunk: Buffer) => (body += chunk.toString()));
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, body, headers: response.headers as Headers }),
      );
    });
    asked.on('error', reject);
    asked.end();
  });
}

/** What comes back for these bytes. */
function raw(bytes: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect(deck.server.port, ADDRESS, () => socket.write(bytes));
    let said = '';
    socket.on('data', (data: Buffer) => {
      said += data.toString();
      socket.destroy();
    });
    socket.on('close', () => resolve(said.split('\r\n')[0]!));
    socket.on('error', reject);
  });
}

/** The status with which a socket is refused; 101 where it opens. */
function socketStatus(path: string, headers: Headers): Promise<number> {
  return new Promise((resolve, reject) => {
    const socket = new WebSocket(`ws://${deck.network}${path}`, { headers });
    socket.on('open', () => {
      socket.terminate();
      resolve(101);
    });
    socket.on('unexpected-response', (_, response) => {
      resolve(response.statusCode ?? 0);
      response.destroy();
    });
    socket.on('error', reject);
  });
}

/** The coach's page of this machine that has switched sharing on, with its key. */
async function shares(): Promise<DoorSocket> {
  const coach = await DoorSocket.open({ host: deck.machine });
  coach.hello('desk');
  coach.tell({ say: 'sharing', id: 'on', wish: { do: 'share', address: null } });
  await coach.hears('answer', ({ id, ok }) => id === 'on' && ok);
  return coach;
}

describe('[sharing] the switch', () => {
  test('is off at first: nothing listens but on this machine', async () => {
    await expect(ask('GET', '/healthz')).rejects.toThrow('ECONNREFUSED');
    expect((await ask('GET', '/healthz', {}, '127.0.0.1')).status).toBe(200);
  });

  test('on by a page’s wish: it gets its key first, and the others that command are hung up on, walls not', async () => {
    const pages = await Promise.all(
      (['desk', 'remote', 'wall'] as const).map(async (kind) => {
        const page = await DoorSocket.open({ host: deck.machine });
        page.hello(kind);
        await page.hears('snapshot');
        return page;
      }),
    );
    const coach = await DoorSocket.open({ host: deck.machine });
    coach.hello('desk');
    coach.tell({ say: 'sharing', id: 'on', wish: { do: 'share', address: ADDRESS } });
    const { given } = await coach.hears('own-key');
    expect(given).toMatchObject({ role: 'coach' });
    await pages[0]!.hears('bye', ({ why }) => why.startsWith('Lanecall is shared now'));
    await pages[1]!.hears('bye', ({ why }) => why.startsWith('Lanecall is shared now'));
    await coach.hears('answer', ({ ok }) => ok);
    await deck.host.command('m', { do: 'mark' });
    pages[2]!.tell({ say: 'ping', n: 1, t1: 0 });
    await pages[2]!.hears('pong');
    const isMine = ({ id, connected }: SharedDevice): boolean => id === given.id && connected;
    const told = await coach.told(({ state, devices }) => state === 'open' && devices.some(isMine));
    expect(told).toMatchObject({
      address: `http://${deck.network}/`,
      choices: [{ address: ADDRESS, name: 'wlan0' }],
      mayLetIn: true,
      fault: null,
    });
  });

  test('off again: everybody is gone within 100 ms, keys are void, and pages of this machine need none', async () => {
    const coach = await shares();
    const phone = await DoorSocket.open({ host: deck.network });
    const given = await phone.join(await coach.newCode());
    phone.hello('remote');
    await phone.hears('snapshot');
    const silent = await DoorSocket.open({ host: deck.network });
    const begun = performance.now();
    const gone = Promise.all([phone.closed(), silent.closed()]);
    coach.tell({ say: 'sharing', id: 'off', wish: { do: 'stop-sharing' } });
    await gone;
    expect(performance.now() - begun).toBeLessThan(100);
    await expect(ask('GET', '/healthz')).rejects.toThrow('ECONNREFUSED');
    const page = await DoorSocket.open({ host: deck.machine });
    page.hello('desk');
    await page.hears('snapshot');
    const late = await DoorSocket.open({ host: deck.machine });
    expect(await late.comeBack(given!)).toBe(false);
  });

  test('a port that is taken there is said, and nothing is shared', async () => {
    const other = await SharedDeck.start();
    const taken = createServer();
    await new Promise<void>((resolve) => taken.listen(other.server.port, ADDRESS, resolve));
    expect(await other.shared.sharing.share(null)).toMatch(/^Port \d+ of 127\.0\.0\.2 is in use, .*\.$/);
    expect(other.shared.sharing.isOn()).toBe(false);
    taken.close();
    await other.close();
  });
});

describe('[sharing] doors of the network', () => {
  beforeEach(async () => expect(await deck.shared.sharing.share(null)).toBeNull());

  test('pages are public files: the wall’s under the bare address, the coach’s apart', async () => {
    for (const [path, page] of Object.entries({
      '/': '/display',
      '/display': '/display',
      '/remote': '/remote',
      '/coach': '/',
    })) {
      const { status, body, headers } = await ask('GET', path);
      expect([path, status, body]).toEqual([path, 200, page]);
      expect(headers['content-security-policy']).toContain(`connect-src 'self' ws://${deck.network}`);
      expect([headers['cache-control'], headers['set-cookie']]).toEqual(['no-store', undefined]);
      // Without a secure context browsers complain of it, and do nothing.
      expect(headers['cross-origin-opener-policy']).toBeUndefined();
    }
    expect((await ask('HEAD', '/')).status).toBe(200);
    expect(JSON.parse((await ask('GET', '/healthz')).body)).toEqual({ ok: true });
    expect((await ask('GET', '/session')).status).toBe(404);
  });

  test.each(['PUT', 'POST', 'DELETE', 'OPTIONS', 'PATCH'])('%s is 405, at every path', async (method) => {
    for (const path of ['/', '/session', '/command', '/told', '/records', '/session-file'])
      expect((await ask(method, path, { Origin: `http://${deck.network}` })).status).toBe(405);
  });

  test('Host is exactly address and port, once: no name, no other port, no other address', async () => {
    const { port } = deck.server;
    for (const host of [
      'localhost',
      `localhost:${port}`,
      ADDRESS,
      `${ADDRESS}:1`,
      `127.0.0.1:${port}`,
      `evil.example:${port}`,
    ])
      expect([host, (await ask('GET', '/', { Host: host })).status]).toEqual([host, 403]);
    const line = `Host: ${deck.network}\r\n`;
    expect(await raw(`GET / HTTP/1.1\r\n${line}\r\n`)).toBe('HTTP/1.1 200 OK');
    expect(await raw(`GET / HTTP/1.1\r\n${line}${line}\r\n`)).toMatch(/^HTTP\/1\.1 40[03] /);
    expect(await raw('GET / HTTP/1.1\r\n\r\n')).toMatch(/^HTTP\/1\.1 40[03] /);
  });

  test('a socket needs that Host and its own Origin, each once, at one of the two paths', async () => {
    const own = { Host: deck.network, Origin: `http://${deck.network}` };
    for (const path of ['/deck', '/wall']) expect(await socketStatus(path, own)).toBe(101);
    expect(await socketStatus('/', own)).toBe(404);
    expect(await socketStatus('/deck?x', own)).toBe(404);
    for (const Origin of [
      'null',
      'http://evil.example',
      `https://${deck.network}`,
      `http://127.0.0.1:${deck.server.port}`,
      `http://${ADDRESS}`,
    ])
      expect([Origin, await socketStatus('/deck', { ...own, Origin })]).toEqual([Origin, 403]);
    expect(await socketStatus('/deck', { Host: deck.network })).toBe(403);
    expect(await socketStatus('/deck', { ...own, Host: `localhost:${deck.server.port}` })).toBe(403);
    const upgrade =
      `GET /deck HTTP/1.1\r\nHost: ${deck.network}\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n` +
      'Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n';
    const origin = `Origin: http://${deck.network}\r\n`;
    expect(await raw(`${upgrade}${origin}\r\n`)).toBe('HTTP/1.1 101 Switching Protocols');
    expect(await raw(`${upgrade}${origin}${origin}\r\n`)).toBe('HTTP/1.1 403 Forbidden');
  });
});

describe('[sharing] this machine while it shares', () => {
  test('commands nothing by HTTP, and is told what to do', async () => {
    await deck.shared.sharing.share(null);
    const headers = { Origin: `http://${deck.machine}`, 'Content-Type': 'application/json' };
    for (const [method, path] of [
      ['PUT', '/session'],
      ['POST', '/command'],
      ['POST', '/told'],
      ['POST', '/records'],
    ] as const) {
      const { status, body } = await ask(method, path, headers, '127.0.0.1');
      expect([path, status, body]).toEqual([path, 403, expect.stringContaining('needs a key')]);
    }
    expect((await ask('GET', '/', {}, '127.0.0.1')).status).toBe(200);
  });

  test('a hello without a key is refused with what to do, but for a wall’s, which gets no names', async () => {
    await deck.shared.sharing.share(null);
    for (const kind of ['desk', 'remote'] as const) {
      const page = await DoorSocket.open({ host: deck.machine });
      page.hello(kind);
      expect(await page.heard()).toMatchObject({
        say: 'bye',
        again: true,
        why: expect.stringContaining('needs a key'),
      });
      await page.closed();
    }
    const wall = await DoorSocket.open({ host: deck.machine });
    wall.hello('wall');
    const { text } = await wall.hears('text');
    expect(text).not.toContain('Ana');
  });

  test('another window gets a key by its claim, once, asks over its socket, and commands', async () => {
    const coach = await shares();
    coach.tell({ say: 'sharing', id: 'w', wish: { do: 'another-window' } });
    const { address } = await coach.hears('claim');
    const [start, claim] = address.split('#');
    expect(start).toBe(`http://${deck.machine}/`);
    const window = await DoorSocket.open({ host: deck.machine });
    expect(await window.join(claim!)).toMatchObject({ role: 'coach' });
    window.hello('desk');
    await window.hears('snapshot');
    window.tell({
      say: 'ask',
      id: 'q',
      method: 'POST',
      path: '/command',
      body: JSON.stringify({ say: 'command', id: 'c', command: { do: 'start' } }),
    });
    const { status, body } = await window.hears('reply');
    expect([status, JSON.parse(body)]).toMatchObject([200, { ok: true }]);
    window.tell({ say: 'ask', id: 'n', method: 'PUT', path: '/nothing', body: '' });
    expect(await window.hears('reply', ({ id }) => id === 'n')).toMatchObject({ status: 404 });
    const again = await DoorSocket.open({ host: deck.machine });
    expect(await again.join(claim!)).toBeNull();
    const fromNetwork = await DoorSocket.open({ host: deck.network });
    coach.tell({ say: 'sharing', id: 'w2', wish: { do: 'another-window' } });
    const other = await coach.hears('claim');
    expect(await fromNetwork.join(other.address.split('#')[1]!)).toBeNull();
  });
});

describe('[sharing] a tablet', () => {
  async function tablet(): Promise<{ coach: DoorSocket; page: DoorSocket; id: string }> {
    const coach = await shares();
    const page = await DoorSocket.open({ host: deck.network });
    const given = await page.join(await coach.newCode('tablet'));
    page.hello('desk');
    await page.hears('snapshot');
    return { coach, page, id: given!.id };
  }

  test('opens a session over its socket, larger than other messages may be', async () => {
    const { page } = await tablet();
    const text = `Squad\n8 x 50 @ 1:00\n${'# words that nobody reads\n'.repeat(6000)}`;
    page.tell({
      say: 'ask',
      id: 's',
      method: 'PUT',
      path: '/session',
      body: JSON.stringify({ text, lanesText: null }),
    });
    expect(await page.hears('reply')).toMatchObject({ id: 's', status: 200 });
  });

  test('hears the list and throws out, and lets nobody in', async () => {
    const { page, coach } = await tablet();
    const told = await page.told(({ devices }) => devices.length > 0);
    expect([told.mayLetIn, told.code]).toEqual([false, null]);
    for (const wish of [
      { do: 'share', address: null },
      { do: 'stop-sharing' },
      { do: 'show-code', role: 'remote' },
      { do: 'hide-code' },
      { do: 'let-in', digits: '0000' },
      { do: 'another-window' },
    ] as const)
      await expect(page.wish(wish)).rejects.toThrow(
        'Only the coach’s window on the machine that shares lets others in.',
      );
    const phone = await DoorSocket.open({ host: deck.network });
    const { id } = (await phone.join(await coach.newCode()))!;
    phone.hello('remote');
    await phone.hears('snapshot');
    await page.wish({ do: 'rename-device', device: id, name: 'Pool side' });
    await page.told(({ devices }) => devices.some(({ name }) => name === 'Pool side'));
    const begun = performance.now();
    const closed = phone.closed();
    await page.wish({ do: 'throw-out', device: id });
    await closed;
    expect(performance.now() - begun).toBeLessThan(100);
  });

  test('has a pace for what it asks, apart from others', async () => {
    const { page, coach } = await tablet();
    for (let n = 0; n < 21; n++) page.tell({ say: 'ask', id: `q${n}`, method: 'PUT', path: '/session', body: '{}' });
    expect(await page.hears('reply', ({ id }) => id === 'q20')).toMatchObject({ status: 429 });
    coach.tell({ say: 'ask', id: 'mine', method: 'PUT', path: '/session', body: '{}' });
    expect(await coach.hears('reply')).toMatchObject({ id: 'mine', status: 400 });
  });
});

describe('[sharing] a wall of the network', () => {
  /** The coach types its digits in, and it says hello. */
  async function letWallIn(coach: DoorSocket) {
    const wall = await DoorSocket.open({ host: deck.network, socket: 'wall' });
    wall.say({ say: 'show', version: 1 });
    const shown = await wall.heard();
    await coach.told(({ showing }) => showing === 1);
    await coach.wish({ do: 'let-in', digits: shown!.say === 'digits' ? shown!.digits : '' });
    const letIn = await wall.heard();
    wall.hello('wall');
    return { wall, key: letIn!.say === 'let-in' ? letIn!.key : '' };
  }

  test('hears that it shows no leaves once sharing is ended, and keeps its key for when it is shared again', async () => {
    const coach = await shares();
    const { wall, key } = await letWallIn(coach);
    await wall.hears('snapshot');
    await coach.wish({ do: 'stop-sharing' });
    expect(await wall.hears('bye')).toEqual({ say: 'bye', why: 'Sharing has ended.', version: 1, ended: true });
    await coach.wish({ do: 'share', address: null });
    const again = await DoorSocket.open({ host: deck.network, socket: 'wall' });
    again.say({ say: 'look', version: 1, key });
    expect(await again.heard()).toEqual({ say: 'welcome' });
  });

  test('lets itself be let in by its digits, is told no names, and is hung up on for a command', async () => {
    const { wall, key } = await letWallIn(await shares());
    expect((await wall.hears('text')).text).not.toContain('Ana');
    expect((await wall.hears('snapshot')).notices).toEqual([]);
    wall.tell({ say: 'command', id: 'c', command: { do: 'start' } });
    await wall.hears('bye');
    await wall.closed();
    expect(deck.host.snapshot().run!.commands).toEqual([]);
    const again = await DoorSocket.open({ host: deck.network, socket: 'wall' });
    again.say({ say: 'look', version: 1, key });
    expect(await again.heard()).toEqual({ say: 'welcome' });
    again.hello('desk');
    await again.hears('bye', ({ why }) => why === 'This device was let in as another screen.');
  });
});

describe('[sharing] those who have not proved who they are', () => {
  beforeEach(async () => expect(await deck.shared.sharing.share(null)).toBeNull());

  test('are eight of one address: the ninth takes the place of the oldest', async () => {
    const nine: DoorSocket[] = [];
    for (let n = 0; n < 9; n++) nine.push(await DoorSocket.open({ host: deck.network }));
    await nine[0]!.closed();
    nine[8]!.say({ say: 'join', version: 1, nonce: '0'.repeat(32) });
    expect(await nine[8]!.heard()).toMatchObject({ say: 'prove' });
  });

  test('may say little: a frame of 64 KiB, or forty at once, ends them', async () => {
    const loud = await DoorSocket.open({ host: deck.network });
    loud.send('x'.repeat(64 * 1024));
    await loud.closed();
    const fast = await DoorSocket.open({ host: deck.network, socket: 'wall' });
    fast.say({ say: 'show', version: 1 });
    for (let n = 0; n < 60; n++) fast.say({ say: 'show', version: 1 });
    await fast.closed();
    expect((await ask('GET', '/healthz')).status).toBe(200);
  });
});
