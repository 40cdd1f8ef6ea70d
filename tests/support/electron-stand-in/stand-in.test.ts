/*
 * The stand-in does what Electron's documentation says of the parts that the program leans on. What needs
 * a page in it is seen in the end-to-end tests.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { freshDataFolder } from '../host/folders/data-folder.ts';
import { FakeClock } from '../clock/fake-clock.ts';
import { fromBrowser, toBrowser } from './system/addresses.ts';
import { StandInApp } from './app.ts';
import { asTheFirstHearsThem, commandLineSwitches } from './command-line.ts';
import { StandInIpcMain } from './system/messages.ts';
import { StandInSession } from './system/session.ts';
import { StandInMenu, StandInPowerSaveBlocker, StandInScreen } from './system/system.ts';
import { StandInWindow } from './window.ts';

let app: StandInApp;
let ended: number[];
let clock: FakeClock;

beforeEach(() => {
  for (const window of StandInWindow.getAllWindows()) window.destroy();
  app = new StandInApp();
  clock = new FakeClock();
  ended = [];
  app.connect({
    closeWindows() {
      for (const window of StandInWindow.getAllWindows()) window.close();
      return StandInWindow.all.length === 0;
    },
    end: (status) => void ended.push(status),
  });
  StandInWindow.ports = {
    engine: new Promise(() => undefined),
    ipcMain: new StandInIpcMain(),
    session: new StandInSession(),
    displayOf: () => ({ x: 1280, y: 0, width: 1920, height: 1080 }),
    allClosed: () => app.windowsAllClosed(),
    platform: 'linux',
    later: (call, wait) => void clock.timers.set(call, wait),
  };
});

describe('[stand-in] app', () => {
  test('quits by before-quit, the windows, will-quit and quit, in this order', () => {
    const heard: string[] = [];
    for (const event of ['before-quit', 'will-quit', 'quit']) app.on(event, () => heard.push(event));
    new StandInWindow({}).on('close', () => heard.push('close'));
    app.quit();
    expect(heard.slice(0, 4)).toEqual(['before-quit', 'close', 'will-quit', 'quit']);
    expect(ended).toContain(0);
  });

  test.each(['before-quit', 'will-quit'])('stays where a listener to %s refuses', (event) => {
    app.on(event, ({ preventDefault }: { preventDefault(): void }) => preventDefault());
    app.quit();
    expect(ended).toEqual([]);
  });

  test('stays where a window refuses to close', () => {
    app.on('window-all-closed', () => undefined);
    new StandInWindow({}).on('close', ({ preventDefault }: { preventDefault(): void }) => preventDefault());
    app.quit();
    expect(ended).toEqual([]);
  });

  test('exit asks nobody', () => {
    app.on('before-quit', ({ preventDefault }: { preventDefault(): void }) => preventDefault());
    app.exit(3);
    expect(ended).toEqual([3]);
  });

  test('quits when all windows are closed, unless somebody listens to that', () => {
    new StandInWindow({}).close();
    expect(ended).toEqual([0]);
    app.on('window-all-closed', () => undefined);
    new StandInWindow({}).close();
    expect(ended).toEqual([0]);
  });

  test('refuses a path that is not there, and a sandbox that comes too late', () => {
    expect(() => app.setPath('userData', '/no/such/folder')).toThrow();
    app.enableSandbox();
    app.setReady();
    expect(() => app.enableSandbox()).toThrow('before app is ready');
  });

  test('a sandbox for all takes back the switch that was against it', () => {
    const switches = commandLineSwitches(['--no-sandbox', '/clone', '--data', 'd'], { platform: 'linux', env: {} });
    const started = new StandInApp(switches);
    expect(started.commandLine.hasSwitch('no-sandbox')).toBe(true);
    started.enableSandbox();
    expect(started.commandLine.hasSwitch('no-sandbox')).toBe(false);
  });

  test("a second process's words come switches first, one of Chromium's among them", () => {
    expect(asTheFirstHearsThem(['electron', '/clone', 'a.txt', '--data', 'd'])).toEqual([
      'electron',
      '--data',
      '--allow-file-access-from-files',
      '/clone',
      'a.txt',
      'd',
    ]);
  });

  test('is ready once for whoever waits before and after', async () => {
    const waited = app.whenReady();
    app.setReady();
    await Promise.all([waited, app.whenReady()]);
    expect(app.isReady()).toBe(true);
  });
});

describe('[stand-in] the single instance', () => {
  test('is held by one process for each data folder, and free again after it', () => {
    const folder = freshDataFolder();
    mkdirSync(join(folder, 'user'));
    const main = join(folder, 'main.cjs');
    writeFileSync(
      main,
      `const { app } = require('electron');
       app.setPath('userData', ${JSON.stringify(join(folder, 'user'))});
       process.stdout.write(String(app.requestSingleInstanceLock({ file: 'x' })));
       app.exit(0);`,
    );
    const launcher = new URL('launch.mjs', import.meta.url).pathname;
    const once = () => spawnSync(process.execPath, [launcher, main], { encoding: 'utf8', timeout: 15_000 }).stdout;
    expect(once()).toBe('true');
    expect(once()).toBe('true');
    writeFileSync(join(folder, 'user', 'stand-in.lock'), String(process.pid));
    expect(once()).toBe('false');
  });
});

describe('[stand-in] BrowserWindow', () => {
  test('close asks, destroy does not, and closed comes either way', () => {
    app.on('window-all-closed', () => undefined);
    const heard: string[] = [];
    const window = new StandInWindow({});
    window.on('closed', () => heard.push('closed'));
    window.on('close', ({ preventDefault }: { preventDefault(): void }) => preventDefault());
    window.close();
    expect([window.isDestroyed(), heard]).toEqual([false, []]);
    window.destroy();
    expect([window.isDestroyed(), heard, window.webContents.isDestroyed()]).toEqual([true, ['closed'], true]);
  });

  const BEFORE = { x: 10, y: 20, width: 300, height: 200 };
  const DISPLAY = { x: 1280, y: 0, width: 1920, height: 1080 };
  const on = (platform: NodeJS.Platform): StandInWindow => {
    StandInWindow.ports = { ...StandInWindow.ports!, platform };
    return new StandInWindow(BEFORE);
  };

  test('full screen under Linux is taken for done at once; the window manager comes after it with its own bounds', () => {
    const window = on('linux');
    const seen: unknown[] = [];
    for (const event of ['enter-full-screen', 'leave-full-screen']) {
      window.on(event, () => seen.push([event, window.isFullScreen(), window.getBounds().x]));
    }
    window.setFullScreen(true);
    expect([window.isFullScreen(), window.getBounds(), window.getNormalBounds()]).toEqual([true, DISPLAY, BEFORE]);
    clock.advance(100);
    window.setFullScreen(false);
    window.setBounds({ x: 1, y: 2, width: 400, height: 300 });
    clock.advance(100);
    expect(window.getBounds()).toEqual(BEFORE);
    expect(seen).toEqual([
      ['enter-full-screen', true, DISPLAY.x],
      ['leave-full-screen', false, BEFORE.x],
    ]);
  });

  test('a window on Wayland does not know where it is', () => {
    StandInWindow.ports = { ...StandInWindow.ports!, isWayland: true };
    expect(on('linux').getBounds()).toEqual({ ...BEFORE, x: 0, y: 0 });
  });

  test('full screen under Windows is announced before it is so, and what is set meanwhile is lost', () => {
    const window = on('win32');
    window.setFullScreen(true);
    expect([window.isFullScreen(), window.getBounds()]).toEqual([true, DISPLAY]);
    let seen: unknown;
    window.once('leave-full-screen', () => {
      seen = window.isFullScreen();
      window.setBounds({ x: 1, y: 2, width: 400, height: 300 });
    });
    window.setFullScreen(false);
    expect([seen, window.isFullScreen(), window.getBounds()]).toEqual([true, false, BEFORE]);
  });

  test('the simple full screen of macOS is at once, unseen by isFullScreen, and hides the Dock until it is left', () => {
    const window = on('darwin');
    window.setSimpleFullScreen(true);
    expect([window.isSimpleFullScreen(), window.isFullScreen(), window.getBounds()]).toEqual([true, false, DISPLAY]);
    window.destroy();
    expect(StandInWindow.isDockHidden).toBe(true);
    const other = on('darwin');
    other.setSimpleFullScreen(true);
    other.setSimpleFullScreen(false);
    expect([StandInWindow.isDockHidden, other.getBounds()]).toEqual([false, BEFORE]);
  });

  test('cannot be made before the program is ready', () => {
    StandInWindow.ports = null;
    expect(() => new StandInWindow({})).toThrow('before app is ready');
  });
});

describe('[stand-in] the rest', () => {
  test('ipcMain gives one handler its question, and what is thrown to whoever asked', async () => {
    const ipcMain = new StandInIpcMain();
    ipcMain.handle('sum', (_, a, b) => (a as number) + (b as number));
    ipcMain.handle('fails', () => Promise.reject(new Error('not today')));
    expect(() => ipcMain.handle('sum', () => 0)).toThrow('second handler');
    expect(JSON.parse(await ipcMain.invoked({}, 'sum', [1, 2]))).toEqual({ value: 3 });
    expect(JSON.parse(await ipcMain.invoked({}, 'fails', []))).toEqual({ error: 'Error: not today' });
    expect(await ipcMain.invoked({}, 'unknown', [])).toContain('No handler registered');
  });

  test('a blocker of sleep works from its start to its stop', () => {
    const blocker = new StandInPowerSaveBlocker();
    const [a, b] = [blocker.start('prevent-display-sleep'), blocker.start('prevent-app-suspension')];
    expect(a).not.toBe(b);
    expect(blocker.stop(a)).toBe(true);
    expect([blocker.isStarted(a), blocker.isStarted(b), blocker.stop(a)]).toEqual([false, true, false]);
  });

  test('a menu is built from its template, and a click turns a checkbox before it is told', () => {
    const seen: boolean[] = [];
    const click = ({ checked }: { checked: boolean }) => void seen.push(checked);
    const menu = StandInMenu.buildFromTemplate([{ label: 'A', submenu: [{ label: 'B', type: 'checkbox', click }] }]);
    menu.items[0]!.submenu!.items[0]!.click();
    expect(seen).toEqual([true]);
    expect(() => StandInMenu.buildFromTemplate([{ type: 'checkbox', submenu: [] }])).toThrow();
  });

  test('a rectangle is on the display that most of it lies on', () => {
    const at = (id: number, x: number) => ({
      id,
      label: '',
      internal: false,
      bounds: { x, y: 0, width: 100, height: 100 },
    });
    const screen = new StandInScreen([at(1, 0), at(2, 100)]);
    expect(screen.getDisplayMatching({ x: 40, y: 0, width: 100, height: 50 }).id).toBe(1);
    expect(screen.getDisplayMatching({ x: 80, y: 0, width: 100, height: 50 }).id).toBe(2);
    expect(screen.getDisplayMatching({ x: 999, y: 0, width: 10, height: 10 }).id).toBe(1);
  });

  test.each(['app://lanecall/', 'app://lanecall/display?lanes=1', 'app://lanecall/assets/x.js#y'])(
    '%s goes into the browser and comes out of it again',
    (address) => {
      expect(toBrowser(address)).toMatch(/^https:\/\/lanecall\.app\.localhost\//);
      expect(fromBrowser(toBrowser(address))).toBe(address);
    },
  );

  test.each(['https://example.org/', 'file:///x', 'about:blank'])('%s stays as it is', (address) => {
    expect([toBrowser(address), fromBrowser(address)]).toEqual([address, address]);
  });
});
