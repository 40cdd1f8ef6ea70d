/* The coach's window while it lives: files that wait for its page, its place that is kept, and who may close it. */

import { beforeEach, describe, expect, test, vi } from 'vitest';
import { deskWindow } from '../../../app/desktop/windows/desk-window.ts';
import { pageAddress, plainAddress } from '../../../app/desktop/windows/window-kind.ts';
import { CHANNELS } from '../../../app/wire/window-bridge.ts';
import { laptop, tv } from '../../support/desktop/some-displays.ts';
import { StandInIpcMain } from '../../support/electron-stand-in/system/messages.ts';
import { StandInSession } from '../../support/electron-stand-in/system/session.ts';
import { StandInScreen } from '../../support/electron-stand-in/system/system.ts';
import { StandInWindow } from '../../support/electron-stand-in/window.ts';

const electron = vi.hoisted(() => ({ BrowserWindow: null as unknown, screen: null as unknown }));
vi.mock('electron', () => electron);

const BEFORE = { x: 1400, y: 100, width: 900, height: 700 };
const file = (name: string) => ({ name, text: 'x', lanesText: null, why: 'A run is going.' });

let kept: object[];
let mayLeave: boolean;
let told: string[];
let sent: unknown[];

beforeEach(() => {
  for (const window of StandInWindow.getAllWindows()) window.destroy();
  electron.screen = new StandInScreen([laptop, tv]);
  electron.BrowserWindow = StandInWindow;
  StandInWindow.ports = {
    engine: new Promise(() => undefined),
    ipcMain: new StandInIpcMain(),
    session: new StandInSession(),
    displayOf: (bounds) => bounds,
    allClosed: () => undefined,
    platform: process.platform,
    later: () => undefined,
  };
  kept = [];
  mayLeave = true;
  told = [];
  sent = [];
});

function open(before: typeof BEFORE | null = BEFORE) {
  const ports = { mayLeave: () => mayLeave, keep: (bounds: object) => void kept.push(bounds) };
  const desk = deskWindow(before, ports, {
    made: () => void told.push('made'),
    pageGone: () => void told.push('gone'),
    closed: () => void told.push('closed'),
  });
  const window = () => desk.current() as unknown as StandInWindow;
  /** The page of the window, or another in its place, has been loaded. */
  const loaded = (address = pageAddress('desk')): void => {
    const { webContents } = window();
    webContents.getURL = () => address;
    webContents.send = (channel: string, ...words: unknown[]) => void sent.push([channel, ...words]);
    webContents.emit('did-finish-load');
  };
  return { desk, window, loaded };
}

describe("[desktop] the coach's window", () => {
  test('opens where it was, and says on which display it is', () => {
    const { desk, window } = open();
    expect(window().getBounds()).toEqual(BEFORE);
    expect([desk.display(), told]).toEqual([tv.id, ['made']]);
    window().setBounds({ x: 10, y: 10 });
    expect(desk.display()).toBe(laptop.id);
    window().close();
    // Where it would open again.
    expect(desk.display()).toBe(tv.id);
  });

  test("has the coach's page, and what that page may ask for", () => {
    const asked: { webPreferences?: { preload?: string } }[] = [];
    const addresses: string[] = [];
    electron.BrowserWindow = class extends StandInWindow {
      constructor(options: ConstructorParameters<typeof StandInWindow>[0]) {
        super(options);
        asked.push(options);
        this.webContents.loadURL = (address: string) => Promise.resolve(void addresses.push(address));
      }
    };
    open();
    expect(addresses).toEqual([pageAddress('desk')]);
    expect(asked[0]!.webPreferences!.preload).toMatch(/preload-desk\.cjs$/);
  });

  test('comes to the front when it is asked for', () => {
    const { desk, window } = open();
    new StandInWindow({}).focus();
    expect(window().isFocused()).toBe(false);
    desk.focus();
    expect(window().isFocused()).toBe(true);
  });

  test('is closed only where the program may end; its place is kept either way', () => {
    const { desk, window } = open();
    mayLeave = false;
    window().close();
    expect(desk.current()).not.toBeNull();
    mayLeave = true;
    window().close();
    expect(desk.current()).toBeNull();
    expect(kept).toEqual([BEFORE, BEFORE]);
    expect(told).toEqual(['made', 'gone', 'closed']);
  });
});

describe("[desktop] a file for the coach's window", () => {
  test('waits until its page is there, and comes at once from then on', () => {
    const { desk, loaded } = open();
    desk.send(file('one'));
    desk.send(file('two'));
    expect(sent).toEqual([]);
    loaded();
    expect(sent).toEqual([
      [CHANNELS.sessionFile, file('one')],
      [CHANNELS.sessionFile, file('two')],
    ]);
    desk.send(file('three'));
    expect(sent).toHaveLength(3);
    // The page loads itself again: what it had is not sent twice.
    loaded();
    expect(sent).toHaveLength(3);
  });

  test('is not given to the plain page that stands for one that keeps ending', () => {
    const { desk, loaded } = open();
    desk.send(file('one'));
    loaded(plainAddress('desk'));
    desk.send(file('two'));
    expect(sent).toEqual([]);
  });

  test('waits for the next page where the page has died', async () => {
    const { desk, window, loaded } = open();
    loaded();
    window().webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    await new Promise((resolve) => setImmediate(resolve));
    desk.send(file('one'));
    expect(sent).toEqual([]);
    loaded();
    expect(sent).toEqual([[CHANNELS.sessionFile, file('one')]]);
  });

  test('waits too where the window is closed', () => {
    const { desk, window } = open();
    window().close();
    expect(() => desk.send(file('one'))).not.toThrow();
    expect(sent).toEqual([]);
  });
});
