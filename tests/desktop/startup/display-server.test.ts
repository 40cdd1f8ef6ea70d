/*
 * Which display server the program ends up with under Linux, by the rules of Chromium's own choice.
 */

import { describe, expect, test } from 'vitest';
import {
  executableOf,
  placesWindows,
  STARTED_APART,
  wordsForXServer,
} from '../../../app/desktop/startup/display-server.ts';
import { commandLineSwitches } from '../../support/electron-stand-in/command-line.ts';

const BOTH = { DISPLAY: ':0', WAYLAND_DISPLAY: 'wayland-0', XDG_SESSION_TYPE: 'wayland' };
const WAYLAND = { WAYLAND_DISPLAY: 'wayland-0', XDG_SESSION_TYPE: 'wayland' };

function startedWith(words: string[], env: Record<string, string>, hasX = 'DISPLAY' in env) {
  const chosen = commandLineSwitches(words, { platform: 'linux', env }).get('ozone-platform') ?? '';
  return { chosen, again: wordsForXServer({ platform: 'linux', argv: ['lanecall', ...words], chosen, hasX }) };
}

describe('[desktop] under Linux the program', () => {
  test('that came up on Wayland with an X server beside it starts once more on that, with all its words', () => {
    const { chosen, again } = startedWith(['--no-sandbox', 'a.lanecall'], BOTH);
    expect(chosen).toBe('wayland');
    expect(again).toEqual(['--ozone-platform=x11', '--no-sandbox', 'a.lanecall']);
    expect(startedWith(again!, BOTH)).toEqual({ chosen: 'x11', again: null });
  });

  test.each<[string, string[], Record<string, string>, string]>([
    ['stays on Wayland where there is nothing else', [], WAYLAND, 'wayland'],
    ['stays where somebody has put it', ['--ozone-platform=wayland'], BOTH, 'wayland'],
    ['is on the X server that the launcher named', ['--ozone-platform=x11', '/clone'], BOTH, 'x11'],
    ['is on the X server of an X session', [], { ...BOTH, XDG_SESSION_TYPE: 'x11' }, 'x11'],
  ])('%s', (_, words, env, expected) => {
    expect(startedWith(words, env)).toEqual({ chosen: expected, again: null });
  });

  test('stays on Wayland where the X server that is named is gone', () => {
    expect(startedWith(['a.lanecall'], BOTH, false)).toEqual({ chosen: 'wayland', again: null });
  });

  test('knows from what is in force whether its windows go where they are put', () => {
    expect([placesWindows('linux', 'wayland'), placesWindows('linux', 'x11')]).toEqual([false, true]);
    expect([placesWindows('win32', 'wayland'), placesWindows('darwin', '')]).toEqual([true, true]);
  });

  test('stays where somebody has named one in two words', () => {
    const argv = ['lanecall', '--ozone-platform', 'wayland'];
    expect(wordsForXServer({ platform: 'linux', argv, chosen: 'wayland', hasX: true })).toBeNull();
  });

  test('starts no second time on a system with one display server', () => {
    expect(wordsForXServer({ platform: 'win32', argv: ['lanecall'], chosen: 'wayland', hasX: true })).toBeNull();
  });

  test('that starts once more is not waited for, and prints where the first would', () => {
    expect(STARTED_APART).toEqual({ detached: true, stdio: 'inherit' });
  });

  test('that was packed into one file starts as that file', () => {
    expect(executableOf({ env: { APPIMAGE: '/home/Lanecall.AppImage' }, execPath: '/tmp/.mount/lanecall' })).toBe(
      '/home/Lanecall.AppImage',
    );
    expect(executableOf({ env: {}, execPath: '/opt/Lanecall/lanecall' })).toBe('/opt/Lanecall/lanecall');
  });
});
