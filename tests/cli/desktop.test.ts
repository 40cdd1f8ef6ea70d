/*
 * Opening the desktop program from `npm start`: where it is tried, and that whatever goes wrong with it is
 * one line and never a wait without end. The runtime is played by small scripts.
 */

import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runDesktop, whyNotDesktop } from '../../app/cli/desktop.mjs';
import { electronRuntime, fetchRuntime } from '../../app/cli/electron-runtime.mjs';
import { freshDataFolder } from '../support/data-folder.ts';

const LINUX = { platform: 'linux', env: { DISPLAY: ':0' }, uid: 1000 } as const;

describe('[start] the desktop program is tried', () => {
  test.each<[string, string[], Parameters<typeof whyNotDesktop>[1], RegExp | null]>([
    ['on X11', [], LINUX, null],
    ['on Wayland', ['a.txt'], { ...LINUX, env: { WAYLAND_DISPLAY: 'wayland-0' } }, null],
    ['on macOS', ['--data', 'x'], { platform: 'darwin', env: {}, uid: 501 }, null],
    ['on Windows', ['--lanes=x', 'y'], { platform: 'win32', env: {}, uid: undefined }, null],
    ['not without a display', [], { ...LINUX, env: {} }, /no display/],
    ['not from far away', [], { platform: 'darwin', env: { SSH_CONNECTION: '10.0.0.1' }, uid: 501 }, /nobody/],
    ['not in continuous integration', [], { ...LINUX, env: { DISPLAY: ':0', CI: 'true' } }, /nobody/],
    ['not as root', [], { ...LINUX, uid: 0 }, /root/],
    ['not where a port is asked for', ['--port', '0'], LINUX, /--port/],
    ['not where sharing is asked for', ['--share'], LINUX, /--share/],
    ['not for standard input', ['-'], LINUX, /standard input/],
  ])('%s', (_, args, machine, why) => {
    const said = whyNotDesktop(args, machine);
    if (why === null) expect(said).toBeNull();
    else expect(said).toMatch(why);
    expect(said ?? '').not.toMatch(/[.\n]$/);
  });
});

describe('[start] the desktop program', () => {
  const folder = freshDataFolder();
  let scripts = 0;
  const runtime = (script: string): string => {
    const path = join(folder, `runtime-${scripts++}.mjs`);
    writeFileSync(path, `#!${process.execPath}\n${script}`);
    chmodSync(path, 0o755);
    return path;
  };

  test('that opens is waited for, and its exit status is that of the command', async () => {
    const opening = await runDesktop(
      runtime("console.log('Lanecall is open.'); setTimeout(() => process.exit(3), 50);"),
      [],
      folder,
    );
    expect(opening.opened && (await opening.ended)).toBe(3);
  });

  test('that has handed its file to one that is open already has done its work', async () => {
    const opening = await runDesktop(runtime('process.exit(0);'), [], folder);
    expect(opening.opened && (await opening.ended)).toBe(0);
  });

  test.each<[string, string, RegExp]>([
    [
      'dies of a missing library',
      "console.error('[1:2:3/ERROR:x.cc(5)] libnss3.so: cannot open shared object file.\\n    at main (a.js:1)'); process.exit(127);",
      /\(libnss3\.so: cannot open shared object file\)$/,
    ],
    ['throws', "throw new Error('no luck');", /^The desktop program could not be opened \([^\n]*\)$/],
    ['ends without a word', 'process.exit(9);', /\(it ended with 9\)$/],
    ['never opens', 'setInterval(() => undefined, 1000);', /\(it did not open in time\)$/],
  ])('that %s is one line, and no stack trace', async (_, script, why) => {
    const opening = await runDesktop(runtime(script), [], folder, 1500);
    expect(opening).toEqual({ opened: false, why: expect.stringMatching(why) as unknown });
    expect(JSON.stringify(opening)).not.toMatch(/\\n|at main/);
  });

  test('that is no program at all is one line too', async () => {
    const opening = await runDesktop(join(folder, 'missing'), [], folder);
    expect(opening).toEqual({ opened: false, why: expect.stringContaining('ENOENT') as unknown });
  });
});

describe('[start] the Electron runtime', () => {
  function clone({ version = '45.5.0', installer = '' } = {}): string {
    const root = freshDataFolder();
    const dist = join(root, 'node_modules', 'electron', 'dist');
    mkdirSync(dist, { recursive: true });
    writeFileSync(join(dist, '..', 'package.json'), '{"version":"45.5.0"}');
    writeFileSync(join(dist, '..', 'install.js'), installer);
    writeFileSync(join(dist, 'version'), `v${version}\n`);
    writeFileSync(join(dist, 'electron'), '');
    if (installer === '') writeFileSync(join(dist, '..', 'path.txt'), 'electron');
    return root;
  }

  test('is there where the package has put it, in its own version', () => {
    const root = clone();
    expect(electronRuntime(root, {})).toBe(join(root, 'node_modules', 'electron', 'dist', 'electron'));
    expect(electronRuntime(clone({ version: '44.0.0' }), {})).toBeNull();
    expect(electronRuntime(clone({ installer: '//' }), {})).toBeNull();
    expect(electronRuntime('/no/such/clone', {})).toBeNull();
  });

  test('may be elsewhere, where the variable of the package says so', () => {
    const elsewhere = join(clone(), 'node_modules', 'electron', 'dist');
    expect(electronRuntime('/no/such/clone', { ELECTRON_OVERRIDE_DIST_PATH: elsewhere })).toBe(
      join(elsewhere, process.platform === 'win32' ? 'electron.exe' : 'electron'),
    );
    expect(electronRuntime(clone(), { ELECTRON_OVERRIDE_DIST_PATH: '/nowhere' })).toBeNull();
  });

  test('is fetched by the installer of its package', async () => {
    const works = "require('fs').writeFileSync(__dirname + '/path.txt', 'electron');";
    expect(await fetchRuntime(clone({ installer: works }))).toBe(true);
  });

  test('that cannot be fetched is not there, whatever the installer prints', async () => {
    expect(await fetchRuntime(clone({ installer: "throw new Error('no network');" }))).toBe(false);
    expect(await fetchRuntime('/no/such/clone')).toBe(false);
    const locked = clone({ installer: '//' });
    writeFileSync(join(locked, 'dist'), 'a file where the folder should be');
    expect(await fetchRuntime(locked)).toBe(false);
  });

  test('is given up when its download stands still, not while it grows', async () => {
    const grows = `const fs = require('fs'), os = require('os');
      let left = 6;
      const timer = setInterval(() => {
        fs.appendFileSync(os.tmpdir() + '/loading', 'x'.repeat(1000));
        if (--left > 0) return;
        clearInterval(timer);
        fs.writeFileSync(__dirname + '/path.txt', 'electron');
      }, 400);`;
    expect(await fetchRuntime(clone({ installer: grows }), { stalledMs: 1500 })).toBe(true);
    const began = performance.now();
    expect(await fetchRuntime(clone({ installer: 'setInterval(() => {}, 1000);' }), { stalledMs: 1000 })).toBe(false);
    expect(performance.now() - began).toBeLessThan(6000);
  });
});
