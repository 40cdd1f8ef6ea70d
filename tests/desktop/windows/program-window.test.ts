/* A window of the program from its making to its end, and what comes in the place of a page that has died. */

import type Electron from 'electron';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { programWindow, type WindowLook } from '../../../app/desktop/windows/program-window.ts';
import { webPreferences } from '../../../app/desktop/windows/web-preferences.ts';
import { pageAddress, plainAddress, type WindowKind } from '../../../app/desktop/windows/window-kind.ts';
import { onPlatform } from '../../support/system/bent-system.ts';
import { StandInIpcMain } from '../../support/electron-stand-in/system/messages.ts';
import { StandInSession } from '../../support/electron-stand-in/system/session.ts';
import { StandInWindow } from '../../support/electron-stand-in/window.ts';

const electron = vi.hoisted(() => ({ BrowserWindow: null as unknown }));
vi.mock('electron', () => electron);

/** A window that keeps how it was made, what it was asked to load, and what was done with it. */
class WatchedWindow extends StandInWindow {
  readonly options: Electron.BrowserWindowConstructorOptions;
  readonly done: string[] = [];
  address = '';
  minimized = false;

  constructor(options: Electron.BrowserWindowConstructorOptions) {
    super(options);
    this.options = options;
    this.webContents.getURL = () => this.address;
    this.webContents.loadURL = (address) => {
      this.address = address;
      this.done.push('load');
      return Promise.reject(new Error('there is no such page'));
    };
    made.push(this);
  }

  override isMinimized = (): boolean => this.minimized;

  override restore(): void {
    this.done.push('restore');
  }

  override show(): void {
    this.done.push('show');
    super.show();
  }

  override showInactive(): void {
    this.done.push('show inactive');
    super.showInactive();
  }

  override focus(): void {
    this.done.push('focus');
    super.focus();
  }

  override destroy(): void {
    this.done.push('destroy');
    super.destroy();
  }

  /** The page dies, and what follows from it has been done. */
  async dies(reason = 'crashed'): Promise<void> {
    this.webContents.emit('render-process-gone', {}, { reason });
    await new Promise((resolve) => setImmediate(resolve));
  }
}

const made: WatchedWindow[] = [];
const LOOK: WindowLook = { x: 10, y: 20, width: 700, height: 500, title: 'Lanecall', takesFocus: true };

beforeEach(() => {
  made.length = 0;
  for (const window of StandInWindow.getAllWindows()) window.destroy();
  electron.BrowserWindow = WatchedWindow;
  StandInWindow.ports = {
    engine: new Promise(() => undefined),
    ipcMain: new StandInIpcMain(),
    session: new StandInSession(),
    displayOf: () => ({ x: 0, y: 0, width: 1920, height: 1080 }),
    allClosed: () => undefined,
    platform: process.platform,
    later: () => undefined,
  };
});

/** A window of a kind, and what it has told of. */
function window(kind: WindowKind = 'desk') {
  const told: string[] = [];
  const own = programWindow(kind, {
    made: () => void told.push('made'),
    loaded: () => void told.push('loaded'),
    pageGone: (contents) => void told.push(`gone ${made.findIndex(({ webContents }) => webContents.id === contents)}`),
    closed: () => void told.push('closed'),
  });
  return { own, told };
}

describe('[desktop] a window that opens', () => {
  test.each([
    ['desk', false],
    ['wall', true],
  ] as const)('is made out of sight, in the colour of the wall, with its own script: %s', (kind, hidesMenu) => {
    const { own, told } = window(kind);
    own.open(LOOK);
    expect(made[0]!.options).toEqual({
      x: 10,
      y: 20,
      width: 700,
      height: 500,
      title: 'Lanecall',
      show: false,
      autoHideMenuBar: hidesMenu,
      backgroundColor: '#04131b',
      webPreferences: expect.objectContaining({ preload: expect.stringMatching(`[/\\\\]preload-${kind}\\.cjs$`) }),
    });
    expect(told).toEqual(['made']);
    expect(own.current()).toBe(made[0]);
  });

  test('loads its own page, and a page that cannot be loaded ends nothing', async () => {
    const { own } = window('wall');
    own.open(LOOK);
    await new Promise((resolve) => setImmediate(resolve));
    expect(made[0]!.address).toBe(pageAddress('wall'));
  });

  test('takes the keyboard only where it should', () => {
    window().own.open(LOOK);
    window().own.open({ ...LOOK, takesFocus: false });
    expect(made.map(({ done }) => done.slice(0, 2))).toEqual([
      ['show', 'show inactive'],
      ['show inactive', 'load'],
    ]);
  });

  test('and is open already comes to the front, from the task bar too', () => {
    const { own } = window();
    own.open(LOOK);
    const [only] = made;
    only!.done.length = 0;
    own.open(LOOK);
    expect([made.length, only!.done]).toEqual([1, ['show', 'show inactive', 'focus', 'focus']]);
    only!.done.length = 0;
    only!.minimized = true;
    own.open(LOOK);
    expect(only!.done[0]).toBe('restore');
  });
});

test('[desktop] every page is in a sandbox, without Node, and runs on behind other windows', () => {
  expect(webPreferences('/preload.cjs')).toEqual({
    preload: '/preload.cjs',
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
    webviewTag: false,
    navigateOnDragDrop: false,
    backgroundThrottling: false,
    spellcheck: false,
  });
});

describe('[desktop] a window tells', () => {
  test('when its page has been loaded, has gone, and when somebody has closed it', () => {
    const { own, told } = window();
    own.open(LOOK);
    made[0]!.webContents.emit('did-finish-load');
    made[0]!.webContents.emit('did-navigate');
    own.close();
    expect(told).toEqual(['made', 'loaded', 'gone 0', 'gone 0', 'closed']);
    expect(own.current()).toBeNull();
    own.close();
    own.open(LOOK);
    expect(own.current()).toBe(made[1]);
  });
});

describe('[desktop] a page that dies', () => {
  test('comes back in a new window of the same place, which takes no keyboard; the old one goes, and nobody closed it', async () => {
    const { own, told } = window();
    own.open(LOOK);
    made[0]!.setBounds({ x: 300, y: 40 });
    await made[0]!.dies();
    expect(made).toHaveLength(2);
    expect(made[1]!.options).toMatchObject({ x: 300, y: 40, width: 700, height: 500, title: 'Lanecall' });
    expect(made[1]!.done).toEqual(['show inactive', 'load']);
    expect([made[0]!.isDestroyed(), own.current() === (made[1] as never)]).toEqual([true, true]);
    expect(made[1]!.address).toBe(pageAddress('desk'));
    expect(told).toEqual(['made', 'gone 0', 'made', 'gone 0']);
  });

  test('in a window that fills its display comes back where that was to open', async () => {
    onPlatform('linux');
    StandInWindow.ports = { ...StandInWindow.ports!, platform: 'linux' };
    const { own } = window('wall');
    own.open(LOOK);
    made[0]!.setFullScreen(true);
    await made[0]!.dies();
    expect(made[1]!.options).toMatchObject({ x: 10, y: 20, width: 700, height: 500 });
  });

  test('on macOS gives Dock and menu bar back before its window goes', async () => {
    onPlatform('darwin');
    StandInWindow.ports = { ...StandInWindow.ports!, platform: 'darwin' };
    const { own } = window('wall');
    own.open(LOOK);
    made[0]!.setSimpleFullScreen(true);
    await made[0]!.dies();
    expect(StandInWindow.isDockHidden).toBe(false);
  });

  test('is the plain one at the fourth time within a minute, and that does not come back', async () => {
    const { own } = window('wall');
    own.open(LOOK);
    for (let time = 0; time < 4; time++) await made[time]!.dies();
    expect(made.map(({ address }) => address)).toEqual([
      ...new Array<string>(4).fill(pageAddress('wall')),
      plainAddress('wall'),
    ]);
    await made[4]!.dies();
    expect(made).toHaveLength(5);
    expect(made[4]!.isDestroyed()).toBe(false);
  });

  test('comes back again when the minute is over', async () => {
    const now = vi.spyOn(performance, 'now').mockReturnValue(0);
    const { own } = window();
    own.open(LOOK);
    for (let time = 0; time < 12; time++) {
      now.mockReturnValue(time * 20_000);
      await made[time]!.dies();
    }
    now.mockRestore();
    expect(made.every(({ address }) => address === pageAddress('desk'))).toBe(true);
  });

  test('in good order stays as it is', async () => {
    const { own, told } = window();
    own.open(LOOK);
    await made[0]!.dies('clean-exit');
    expect([made.length, told]).toEqual([1, ['made', 'gone 0']]);
  });

  test('in a window that is closed by then, or is another by then, opens nothing', async () => {
    const { own } = window();
    own.open(LOOK);
    const dying = made[0]!.dies();
    own.close();
    await dying;
    expect(made).toHaveLength(1);
    own.open(LOOK);
    await made[0]!.dies();
    expect(made).toHaveLength(2);
  });
});
