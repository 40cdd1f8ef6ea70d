/* `lanecall serve`: what it refuses, and a real one from its first line to its end. */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { lanecall } from '../support/system/command-line.ts';
import { DoorSocket } from '../support/host/sharing/door-socket.ts';

const MAIN = fileURLToPath(new URL('../../app/cli/main.ts', import.meta.url));
const TSX = import.meta.resolve('tsx');

let folder: string;
let running: Served | null = null;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lanecall-serve-'));
  writeFileSync(join(folder, 'session.txt'), 'Squad\n8 x 50 @ 1:00\n');
  writeFileSync(join(folder, 'faulty.txt'), 'Main\n4 x 50 @ 1.30\n');
  writeFileSync(join(folder, 'lanes.txt'), 'lane 4\nlane 5\n');
});
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => {
  running?.child.kill('SIGKILL');
  running = null;
});

interface Served {
  readonly child: ChildProcess;
  readonly origin: string;
  readonly printed: () => { readonly stdout: string; readonly stderr: string };
  readonly ended: Promise<unknown[]>;
}

/** Resolves when the first line is printed. */
function serve(...args: string[]): Promise<Served> {
  return started(MAIN, 'serve', ...args);
}

/** The same for any script. */
async function started(...words: string[]): Promise<Served> {
  const child = spawn(process.execPath, ['--import', TSX, ...words], { cwd: folder });
  let [stdout, stderr] = ['', ''];
  child.stdout.on('data', (chunk: Buffer) => (stdout += chunk.toString()));
  child.stderr.on('data', (chunk: Buffer) => (stderr += chunk.toString()));
  const ended = once(child, 'close');
  running = { child, origin: '', printed: () => ({ stdout, stderr }), ended };
  await expect.poll(() => stdout + stderr, { timeout: 20_000 }).toContain('\n');
  running = { ...running, origin: /http:\/\/127\.0\.0\.1:\d+/.exec(stdout)?.[0] ?? '' };
  return running;
}

describe('[serve] what it refuses', () => {
  test.each([
    [['serve', 'session.txt', 'session.txt'], 64],
    [['serve', '--lanes', 'lanes.txt'], 64],
    [['serve', '-', '--lanes', '-'], 64],
    [['serve', '--port', '65536'], 64],
    [['serve', '--port', '-1'], 64],
    [['serve', '--port', 'http'], 64],
    [['serve', '--open'], 64],
    [['serve', 'missing.txt'], 66],
    [['serve', 'session.txt', '--lanes', 'missing.txt'], 66],
    [['serve', '--port', '0', '--data', 'session.txt'], 1],
  ])('%j: one line, exit %i', async (argv, expected) => {
    const { status, stdout, stderr } = await lanecall(argv, folder);
    expect({ status, stdout }).toEqual({ status: expected, stdout: '' });
    expect(stderr).toMatch(/^[^\n]+\n$/);
  });

  test('a session with faults: each in its place, exit 2', async () => {
    const { status, stdout, stderr } = await lanecall(['serve', 'faulty.txt'], folder);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toMatch(/^faulty\.txt:2:\d+: /);
  });

  test('a port in use: one line that says which and what to do, exit 1', async () => {
    const other = createServer();
    other.listen(0, '127.0.0.1');
    await once(other, 'listening');
    const { port } = other.address() as { port: number };
    const { status, stdout, stderr } = await lanecall(['serve', '--port', String(port), '--data', 'data'], folder);
    other.close();
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
    expect(stderr).toMatch(new RegExp(`^Port ${port} is in use[^\\n]+--port N\\.\\n$`));
  });
});

describe('[serve] a real one', () => {
  test.each(['SIGINT', 'SIGTERM'] as const)(
    'serves the session until %s, then ends cleanly at once',
    async (signal) => {
      const served = await serve('session.txt', '--port', '0', '--lanes', 'lanes.txt', '--data', 'data/deep');
      const { origin, printed, child, ended } = served;
      expect(printed().stdout).toBe(
        `Lanecall is at ${origin}/ (coach), ${origin}/display (wall screen), ${origin}/remote (remote)\n`,
      );
      expect(existsSync(join(folder, 'data', 'deep'))).toBe(true);
      expect(await (await fetch(`${origin}/healthz`)).json()).toEqual({ ok: true });
      const command = { say: 'command', id: 'a', command: { do: 'stop', lanes: [4] } };
      const answer = await fetch(`${origin}/command`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json', Origin: origin },
        body: JSON.stringify(command),
      });
      // The session is open: nothing is going yet.
      expect(await answer.json()).toMatchObject({
        id: 'a',
        ok: false,
        why: expect.stringContaining('no lead is due to leave'),
      });
      const told = performance.now();
      child.kill(signal);
      expect(await ended).toEqual([0, null]);
      expect(performance.now() - told).toBeLessThan(2000);
      expect(printed().stderr).toBe('');
    },
  );

  test('without a session it waits for one', async () => {
    const { origin } = await serve('--port', '0', '--data', 'data');
    const put = await fetch(`${origin}/session`, {
      method: 'PUT',
      headers: { 'Content-Type': 'text/plain', Origin: origin },
      body: 'Squad\n50 @ 1:00\n',
    });
    expect(put.status).toBe(200);
  });

  test('as npm start serves it, a session with faults is in the editor of the first window that asks', async () => {
    const { printed, child, ended } = await serve('--draft', 'faulty.txt', '--port', '0', '--data', 'drafts');
    await expect.poll(() => /http:\/\/127\.0\.0\.1:\d+/.exec(printed().stdout), { timeout: 20_000 }).not.toBeNull();
    const [address] = /http:\/\/127\.0\.0\.1:\d+/.exec(printed().stdout)!;
    expect(printed().stderr).toMatch(/^faulty\.txt:2:\d+: [^\n]+\nfaulty\.txt is in the coach's editor[^\n]+\n$/);
    const ask = async (from: string) => {
      const headers = { 'Content-Type': 'application/json', Origin: from };
      const reply = await fetch(`${address}/session-file`, { method: 'POST', headers, body: '{}' });
      return [reply.status, await reply.json()] as [number, { file: unknown }];
    };
    expect((await ask('http://evil.example'))[0]).toBe(403);
    expect(await ask(address!)).toEqual([
      200,
      {
        file: {
          name: 'faulty.txt',
          text: 'Main\n4 x 50 @ 1.30\n',
          lanesText: null,
          why: 'faulty.txt has faults: they are marked in the editor.',
        },
      },
    ]);
    expect(await ask(address!)).toEqual([200, { file: null }]);
    child.kill('SIGTERM');
    expect(await ended).toEqual([0, null]);
  });

  test('a run that has come back stands in the place of a session that was named', async () => {
    const begin = await serve('session.txt', '--port', '0', '--data', 'back');
    const given = await fetch(`${begin.origin}/command`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', Origin: begin.origin },
      body: JSON.stringify({ say: 'command', id: 'a', command: { do: 'mark' } }),
    });
    expect(await given.json()).toMatchObject({ ok: true });
    begin.child.kill('SIGKILL');
    await begin.ended;
    const none = await serve('--port', '0', '--data', 'back');
    await expect.poll(() => none.printed().stdout).toContain('Lanecall is at');
    expect(none.printed().stderr).toBe('');
    none.child.kill('SIGKILL');
    await none.ended;
    const named = await serve('session.txt', '--port', '0', '--data', 'back');
    await expect.poll(() => named.printed().stdout).toContain('Lanecall is at');
    expect(named.printed().stderr).toContain('The unfinished run of Squad has come back, so the session you named');
    named.child.kill('SIGKILL');
    await named.ended;
    const faulty = await serve('--draft', 'faulty.txt', '--port', '0', '--data', 'back');
    await expect.poll(() => faulty.printed().stdout, { timeout: 20_000 }).toContain('Lanecall is at');
    expect(faulty.printed().stderr.split('\n').slice(1)).toEqual([
      "The unfinished run of Squad has come back. faulty.txt is in the coach's editor, with its faults marked, for after that run.",
      '',
    ]);
  });
});

describe('[share] serve --share', () => {
  const SERVE = new URL('../../app/cli/serve.ts', import.meta.url).href;

  /** A host on a machine that has these addresses; where `npm start` would open a browser, it prints what it would open. */
  function shares(...addresses: readonly string[]): Promise<Served> {
    const script = `const { serve } = await import(${JSON.stringify(SERVE)});
      const { stdin, stdout, stderr } = process;
      process.exitCode = await serve(['--share', '--port', '0', '--data', 'shared'], { stdin, stdout, stderr, cwd: '.' }, {
        served: (opened) => stdout.write('opened ' + opened + '\\n'),
        addresses: () => ${JSON.stringify(addresses.map((address) => ({ address, name: 'pool' })))},
      });`;
    return started('--input-type=module', '--eval', script);
  }

  test('prints where televisions find it, and a claim for the coach’s page; the browser gets no claim', async () => {
    const { printed, child, ended } = await shares('127.0.0.2');
    await expect.poll(() => printed().stdout, { timeout: 20_000 }).toContain('opened');
    const [first, televisions, coach, opened] = printed().stdout.split('\n');
    const port = /:(\d+)\//.exec(first!)![1]!;
    expect(first).toMatch(/^Lanecall is at http:\/\/127\.0\.0\.1:/);
    expect(televisions).toBe(`Televisions open http://127.0.0.2:${port}/ and show digits for the coach to type in`);
    expect(coach).toMatch(
      new RegExp(
        `^The coach's window on this machine: http://127\\.0\\.0\\.1:${port}/#[0-9A-Z]{20} \\(usable once\\)$`,
      ),
    );
    expect(opened).toBe(`opened http://127.0.0.1:${port}/`);
    expect(await (await fetch(`http://127.0.0.2:${port}/healthz`)).json()).toEqual({ ok: true });
    const page = await DoorSocket.open({ host: `127.0.0.1:${port}` });
    expect(await page.join(coach!.split('#')[1]!.slice(0, 20))).toMatchObject({ role: 'coach' });
    child.kill('SIGTERM');
    expect(await ended).toEqual([0, null]);
    expect(printed().stderr).toBe('');
  });

  test('no private address: one sentence, exit 1, and nothing is served', async () => {
    const { printed, ended } = await shares();
    expect(await ended).toEqual([1, null]);
    const stderr = 'This machine has no address on a private network: connect it to the pool’s network, then share.\n';
    expect(printed()).toEqual({ stdout: '', stderr });
  });
});
