/*
 * What `npm start` adds to serving: the editor for a session with faults, and the browser it opens.
 */

import { describe, expect, test } from 'vitest';
import { engineWords, serveArguments, whyNotDesktop } from '../../app/cli/start/start.ts';
import { browserCommand } from '../../app/cli/start/system-browser.ts';

describe('[start] the arguments of serve', () => {
  test.each<[string[], string[]]>([
    [[], []],
    [
      ['--port', '8080', '--share'],
      ['--port', '8080', '--share'],
    ],
    [
      ['tuesday.txt', '--port=8080'],
      ['--draft', 'tuesday.txt', '--port=8080'],
    ],
    [
      ['--lanes', 'lanes.txt', 'tuesday.txt'],
      ['--draft', '--lanes', 'lanes.txt', 'tuesday.txt'],
    ],
    [['-'], ['--draft', '-']],
    [['--help'], ['--help']],
  ])('%j becomes %j', (given, passed) => {
    expect(serveArguments(given)).toEqual(passed);
  });
});

describe("[start] the system's browser", () => {
  test('is opened only where there is a display and a person', () => {
    expect(browserCommand('linux', {})).toBeNull();
    expect(browserCommand('linux', { DISPLAY: ':0' })).toEqual(['xdg-open']);
    expect(browserCommand('linux', { WAYLAND_DISPLAY: 'wayland-0' })).toEqual(['xdg-open']);
    expect(browserCommand('linux', { DISPLAY: ':0', CI: 'true' })).toBeNull();
    expect(browserCommand('darwin', {})).toEqual(['open']);
    expect(browserCommand('darwin', { CI: '1' })).toBeNull();
  });
});

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

describe('[start] the display server under Linux', () => {
  const BOTH = { DISPLAY: ':0', WAYLAND_DISPLAY: 'wayland-0' };
  test.each<[string, NodeJS.Platform, NodeJS.ProcessEnv, boolean, string[]]>([
    ['is X where there is one beside Wayland', 'linux', BOTH, true, ['x11']],
    ['is X where there is nothing else', 'linux', { DISPLAY: ':0' }, true, ['x11']],
    ['is Wayland where there is nothing else', 'linux', { WAYLAND_DISPLAY: 'wayland-0' }, false, ['wayland']],
    ['is Wayland where the X server that is named is gone', 'linux', BOTH, false, ['wayland']],
    ['is left to Chromium where neither is to be found', 'linux', { DISPLAY: ':0' }, false, []],
    ['is no matter elsewhere', 'darwin', BOTH, true, []],
  ])('%s', (_, platform, env, hasX, chosen) => {
    expect(engineWords({ platform, env }, hasX)).toEqual(chosen.map((name) => `--ozone-platform=${name}`));
  });
});
