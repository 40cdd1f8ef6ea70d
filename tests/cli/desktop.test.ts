/*
 * Opening the desktop program from `npm start`: that whatever goes wrong with it is one line and never a
 * wait without end. The runtime is played by small scripts, and fetched from servers on this machine.
 */

import { once } from 'node:events';
import { chmodSync, copyFileSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { request } from 'undici';
import { afterAll, describe, expect, test } from 'vitest';
import { handedOnAfter } from '../../app/cli/launcher/child-process.mjs';
import { runDesktop } from '../../app/cli/start/desktop.ts';
import { networkFor } from '../../app/cli/start/download-network.mjs';
import { electronRuntime, fetchRuntime } from '../../app/cli/start/electron-runtime.ts';
import { freshDataFolder } from '../support/host/folders/data-folder.ts';

describe('[start] the desktop program', () => {
  const folder = freshDataFolder();
  let scripts = 0;
  const runtime = (script: string): string => {
    const path = join(folder, `runtime-${scripts++}.mjs`);
    writeFileSync(path, `#!${process.execPath}\n${script}`);
    chmodSync(path, 0o755);
    return path;
  };

  test('is waited for once it has opened, and the command ends with its exit status', async () => {
    const opening = await runDesktop(
      runtime("console.log('Lanecall is open.'); setTimeout(() => process.exit(3), 50);"),
      [],
      folder,
    );
    expect('ended' in opening && (await opening.ended)).toBe(3);
  });

  test('succeeds when it hands its file to a Lanecall that is already open', async () => {
    const opening = await runDesktop(runtime('process.exit(0);'), [], folder);
    expect('ended' in opening && (await opening.ended)).toBe(0);
  });

  test.each<[string, string, RegExp]>([
    [
      'dies of a missing library',
      "console.error('[1:2:3/ERROR:x.cc(5)] libnss3.so: cannot open shared object file.\\n    at main (a.js:1)'); process.exit(127);",
      /\(libnss3\.so: cannot open shared object file\)$/,
    ],
    [
      'dies of what it says after much else',
      "console.error('[1:2:3/ERROR:bus.cc(5)] Failed to connect to the bus.\\n[1:2:3:FATAL:x.cc:9] No room left. And so on.'); process.exit(133);",
      /\(No room left\. And so on\)$/,
    ],
    ['throws', "throw new Error('no luck');", /^The desktop program could not be opened \([^\n]*\)$/],
    ['ends without a word', 'process.exit(9);', /\(it ended with 9\)$/],
    ['shows nothing', 'setInterval(() => undefined, 1000);', /\(no window could be seen after 2 s\)$/],
    [
      'shows nothing and says why',
      "console.error('[1:1:1/1:ERROR:gpu.cc(1)] GPU process exited.'); setInterval(() => undefined, 1000);",
      /\(no window could be seen after 2 s: GPU process exited\)$/,
    ],
  ])('when it %s, the reason is one line without a stack trace', async (_, script, why) => {
    const opening = await runDesktop(runtime(script), [], folder, 1500);
    expect(opening).toEqual({ why: expect.stringMatching(why) as unknown });
    expect(JSON.stringify(opening)).not.toMatch(/\\n|at main/);
  });

  test.each([
    'The SUID sandbox helper binary was found, but is not configured correctly. Rather than run without sandboxing',
    'No usable sandbox! If you are running on Ubuntu 23.10+ or another Linux distro that has disabled',
  ])('when it may not make a sandbox, the two commands that allow it are named: %s', async (words) => {
    const path = runtime(`console.error('[9:9:1/1:FATAL:x.cc:166] ${words}'); process.exit(133);`);
    const opening = await runDesktop(path, [], folder);
    expect(opening).toEqual({
      why: expect.stringContaining('sandbox') as unknown,
      remedy: [`sudo chown root:root "${folder}/chrome-sandbox"`, `sudo chmod 4755 "${folder}/chrome-sandbox"`],
    });
  });

  test('when its file is missing, the reason is one line too', async () => {
    const opening = await runDesktop(join(folder, 'missing'), [], folder);
    expect(opening).toEqual({ why: expect.stringContaining('ENOENT') as unknown });
  });
});

describe('[start] a signal to the launcher', () => {
  const at = (platform: NodeJS.Platform, isTerminal: boolean) => ({ platform, isTerminal });
  test.each([
    ['SIGTERM is passed on at once', 'SIGTERM', at('linux', true), 0],
    ['Ctrl-C without a terminal is passed on at once', 'SIGINT', at('darwin', false), 0],
    ["a terminal's Ctrl-C is not passed on: the program has received it too", 'SIGINT', at('linux', true), null],
    [
      'on Windows it is passed on after three seconds, if the program has not ended by itself',
      'SIGINT',
      at('win32', true),
      3000,
    ],
  ] as const)('%s', (_, signal, machine, expected) => {
    expect(handedOnAfter(signal, machine)).toBe(expected);
  });
});

describe('[start] the Electron runtime', () => {
  const node = { env: {}, platform: process.platform };
  const executable = process.platform === 'win32' ? 'electron.exe' : 'electron';

  test('counts as installed once its installer has finished', () => {
    const there = clone();
    expect(electronRuntime(there, { env: {}, platform: 'linux' })).toBe(inElectron(there, 'dist', 'electron'));
    writeFileSync(inElectron(there, 'dist', 'electron.exe'), '');
    expect(electronRuntime(there, { env: {}, platform: 'win32' })).toBe(inElectron(there, 'dist', 'electron.exe'));
    expect(electronRuntime(clone({ installer: '//' }), node)).toBeNull();
    expect(electronRuntime('/no/such/clone', node)).toBeNull();
  });

  test.each([
    ['linux', ['electron']],
    ['win32', ['electron.exe']],
    ['darwin', ['Electron.app', 'Contents', 'MacOS', 'Electron']],
  ] as const)('on %s is taken from the folder that ELECTRON_OVERRIDE_DIST_PATH names', (platform, parts) => {
    const elsewhere = freshDataFolder();
    const env = { ELECTRON_OVERRIDE_DIST_PATH: elsewhere };
    expect(electronRuntime(clone(), { env, platform })).toBeNull();
    mkdirSync(dirname(join(elsewhere, ...parts)), { recursive: true });
    writeFileSync(join(elsewhere, ...parts), '');
    expect(electronRuntime('/no/such/clone', { env, platform })).toBe(join(elsewhere, ...parts));
  });

  test('is not fetched to another place when that folder does not hold it', async () => {
    const fetching = fetchRuntime(clone(), say, { ELECTRON_OVERRIDE_DIST_PATH: '/nowhere' });
    await expect(fetching).rejects.toThrow('/nowhere');
  });

  test('is fetched once by the installer of its package, even if it is asked for twice at the same time', async () => {
    const root = clone({
      installer: `require('fs').appendFileSync(__dirname + '/installs', 'x');
        require('fs').writeFileSync(__dirname + '/path.txt', 'electron');`,
    });
    const path = inElectron(root, 'dist', executable);
    expect(await Promise.all([fetchRuntime(root, say), fetchRuntime(root, say)])).toEqual([path, path]);
    expect(readFileSync(inElectron(root, 'installs'), 'utf8')).toBe('x');
  });

  test('when it cannot be fetched, the reason that its installer gave is passed on', async () => {
    const throws = clone({ installer: "console.error('Error: no room\\n    at x (y.js:1)'); process.exit(1);" });
    await expect(fetchRuntime(throws, say)).rejects.toThrow(/^no room$/);
    await expect(fetchRuntime(clone({ installer: '//' }), say)).rejects.toThrow('no reason');
    const locked = freshDataFolder();
    writeFileSync(join(locked, 'dist'), 'a file where the folder should be');
    await expect(fetchRuntime(locked, say)).rejects.toThrow('dist');
  });
});

describe("[start] Electron's own installer", () => {
  test('passes on the status that the server answered with', async () => {
    const { address } = await listening((_, answer) => answer.writeHead(404).end());
    const fetching = fetchRuntime(realClone(), say, from(address));
    await expect(fetching).rejects.toThrow(/^Response code 404 \(Not Found\) for http:.*electron-v[\d.]+-.*zip$/);
  });

  test('passes on why the server cannot be reached', async () => {
    const { address, close } = await listening(() => undefined);
    close();
    await expect(fetchRuntime(realClone(), say, from(address))).rejects.toThrow(/^connect ECONNREFUSED 127\.0\.0\.1/);
  });

  test.each([
    ['the usual variable', (proxy: string) => ({ HTTP_PROXY: proxy })],
    ["npm's own setting", (proxy: string) => ({ npm_config_proxy: proxy, npm_config_noproxy: '' })],
  ])('goes through the proxy of %s', async (_, settings) => {
    const asked: string[] = [];
    const proxy = await listening(() => undefined);
    proxy.server.on('connect', ({ url }, socket) => {
      asked.push(url ?? '');
      socket.end('HTTP/1.1 502 Bad Gateway\r\n\r\n');
    });
    const env = { ...from('http://mirror.invalid/'), ...settings(proxy.address) };
    await expect(fetchRuntime(realClone(), say, env)).rejects.toThrow();
    expect(asked).toEqual(['mirror.invalid:80']);
  });

  test('gives up a download that has stopped, and goes on with one that is slow', async () => {
    const { address } = await listening(({ url }, answer) => {
      answer.write('x');
      if (url === '/still') return;
      const timer = setInterval(() => answer.write('x'), 300);
      setTimeout(() => (clearInterval(timer), answer.end('x')), 4000);
    });
    const load = (path: string) =>
      request(`${address}${path}`, { dispatcher: networkFor({}, 1500) }).then(({ body }) => body.text());
    const [grown, still] = await Promise.allSettled([load('grows'), load('still')]);
    expect(grown).toMatchObject({ status: 'fulfilled' });
    expect(still).toMatchObject({ status: 'rejected', reason: { code: 'UND_ERR_BODY_TIMEOUT' } });
  }, 15_000);
});

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const say = (): void => undefined;
const servers: Server[] = [];
afterAll(() => servers.forEach((server) => (server.close(), server.closeAllConnections())));

function inElectron(root: string, ...parts: string[]): string {
  return join(root, 'node_modules', 'electron', ...parts);
}

/** A clone whose runtime is there, or with an installer, whose work it then is. */
function clone({ installer = '' } = {}): string {
  const root = freshDataFolder();
  const network = join(root, 'app', 'cli', 'start', 'download-network.mjs');
  for (const folder of [inElectron(root, 'dist'), dirname(network)]) mkdirSync(folder, { recursive: true });
  const real = pathToFileURL(join(ROOT, 'app/cli/start/download-network.mjs')).href;
  writeFileSync(network, `import ${JSON.stringify(real)};`);
  writeFileSync(inElectron(root, 'install.js'), installer);
  writeFileSync(inElectron(root, 'dist', 'electron'), '');
  if (installer === '') writeFileSync(inElectron(root, 'path.txt'), 'electron');
  return root;
}

/** A clone with the installer of the package itself. */
function realClone(): string {
  const root = clone({ installer: '//' });
  for (const name of ['install.js', 'package.json', 'checksums.json']) {
    copyFileSync(inElectron(ROOT, name), inElectron(root, name));
  }
  for (const name of ['@electron', '@electron-internal']) {
    symlinkSync(join(ROOT, 'node_modules', name), join(root, 'node_modules', name), 'junction');
  }
  return root;
}

/** The environment in which the runtime is loaded from this place, and no cache has it. */
function from(address: string): NodeJS.ProcessEnv {
  const { PATH } = process.env;
  return { PATH, ELECTRON_MIRROR: address, electron_config_cache: freshDataFolder() };
}

async function listening(answer: RequestListener): Promise<{ server: Server; address: string; close: () => void }> {
  const server = createServer(answer).listen(0, '127.0.0.1');
  servers.push(server);
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  return { server, address: `http://127.0.0.1:${port}/`, close: () => server.close() };
}
