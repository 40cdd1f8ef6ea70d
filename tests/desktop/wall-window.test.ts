/*
 * The wall screen's window while displays come and go, on the stand-in's windows and a clock of the test's.
 */

import { beforeEach, describe, expect, test, vi } from 'vitest';
import type { WallPlace, WallWish } from '../../app/desktop/displays.ts';
import { wallWindow, type WallWindow } from '../../app/desktop/wall-window.ts';
import { FakeClock } from '../support/fake-clock.ts';
import { StandInIpcMain } from '../support/electron-stand-in/messages.ts';
import { StandInSession } from '../support/electron-stand-in/session.ts';
import { StandInScreen, type StandInDisplay } from '../support/electron-stand-in/system.ts';
import { StandInWindow } from '../support/electron-stand-in/window.ts';

const electron = vi.hoisted(() => ({ screen: null as unknown, BrowserWindow: null as unknown }));
vi.mock('electron', () => electron);

const LAPTOP: StandInDisplay = { id: 1, label: 'Built-in', internal: true, bounds: rectangle(0, 1280, 800) };
const TV: StandInDisplay = { id: 2, label: 'Pool TV', internal: false, bounds: rectangle(1280, 1920, 1080) };
const OTHER: StandInDisplay = { id: 3, label: 'Other TV', internal: false, bounds: rectangle(3200, 3840, 2160) };
const WISH: WallWish = { shown: true, look: 'full screen', display: null };

let screen: StandInScreen;
let clock: FakeClock;
let told: (string | null)[];
let kept: { readonly wish: WallWish; readonly place: WallPlace }[];
let ending: boolean;

beforeEach(() => {
  for (const window of StandInWindow.getAllWindows()) window.destroy();
  screen = new StandInScreen([LAPTOP, TV]);
  electron.screen = screen;
  electron.BrowserWindow = StandInWindow;
  StandInWindow.ports = {
    engine: new Promise(() => undefined),
    ipcMain: new StandInIpcMain(),
    session: new StandInSession(),
    displayOf: (bounds) => screen.getDisplayMatching(bounds).bounds,
    allClosed: () => undefined,
  };
  clock = new FakeClock();
  told = [];
  kept = [];
  ending = false;
});

function open(wish: WallWish = WISH, platform: NodeJS.Platform = 'linux'): WallWindow {
  const ports = {
    timers: clock.timers,
    desktop: { platform, placesWindows: true },
    coachOn: () => LAPTOP.id,
    isEnding: () => ending,
    tell: (sentence: string | null) => void told.push(sentence),
    changed: (changed: WallWish, place: WallPlace) => void kept.push({ wish: changed, place }),
  };
  return wallWindow(wish, ports, { made: () => undefined, pageGone: () => undefined });
}

/** What the window is; full screen comes and goes a little later than it is asked for. */
function seen(wall: WallWindow): string {
  const window = wall.current() as unknown as StandInWindow | null;
  if (!window) return 'none';
  return `${window.isFullScreen() ? 'full' : 'window'} on ${screen.getDisplayMatching(window.getBounds()).label}`;
}

/** The page is there: the window has been put where it belongs. */
function load(wall: WallWindow): void {
  (wall.current() as unknown as StandInWindow).webContents.emit('did-finish-load');
}

function plug(...displays: readonly StandInDisplay[]): void {
  screen.displays = displays;
  screen.emit('display-added', {}, {});
}

describe.each(['linux', 'darwin', 'win32'] as const)('[displays] on %s the wall screen', (platform) => {
  test('opens on the television, follows it away and back, and says where it is meanwhile', async () => {
    const wall = open(WISH, platform);
    load(wall);
    await expect.poll(() => seen(wall)).toBe('full on Pool TV');
    expect(kept[kept.length - 1]!.wish.display).toEqual({ id: 2, label: 'Pool TV', width: 1920, height: 1080 });
    plug(LAPTOP);
    clock.advance(1000);
    await expect.poll(() => seen(wall)).toBe('window on Built-in');
    expect(told[told.length - 1]).toContain('Pool TV');
    plug(LAPTOP, { ...TV, id: 9 });
    clock.advance(1000);
    await expect.poll(() => seen(wall)).toBe('full on Pool TV');
    expect(told[told.length - 1]).toBeNull();
  });

  test('moves from one television to another, and is back there when it was away', async () => {
    plug(LAPTOP, TV, OTHER);
    const wall = open(WISH, platform);
    load(wall);
    wall.moveTo(screen.getAllDisplays()[2]!);
    await expect.poll(() => seen(wall)).toBe('full on Other TV');
    plug(LAPTOP, TV);
    clock.advance(1000);
    await expect.poll(() => seen(wall)).toBe('full on Pool TV');
    plug(LAPTOP, TV, OTHER);
    clock.advance(1000);
    await expect.poll(() => seen(wall)).toBe('full on Other TV');
  });
});

describe('[displays] the wall screen', () => {
  test('waits until a television that comes, goes and comes again has made up its mind', async () => {
    const wall = open();
    load(wall);
    await expect.poll(() => seen(wall)).toBe('full on Pool TV');
    const placed = kept.length;
    for (let time = 0; time < 5; time++) {
      plug(LAPTOP);
      clock.advance(400);
      plug(LAPTOP, TV);
      clock.advance(400);
    }
    expect(kept.length).toBe(placed);
    clock.advance(1000);
    expect(kept.length).toBe(placed + 1);
    await expect.poll(() => seen(wall)).toBe('full on Pool TV');
  });

  test('stays closed when somebody has closed it, until it is asked for', () => {
    const wall = open();
    (wall.current() as unknown as StandInWindow).close();
    expect(kept[kept.length - 1]!.wish.shown).toBe(false);
    plug(LAPTOP);
    clock.advance(1000);
    expect(wall.current()).toBeNull();
    wall.show(true);
    expect(wall.current()).not.toBeNull();
    wall.show(false);
    expect(wall.current()).toBeNull();
    expect(kept[kept.length - 1]!.wish.shown).toBe(false);
  });

  test('is wanted the next time too where the whole program ended', () => {
    const wall = open();
    ending = true;
    (wall.current() as unknown as StandInWindow).close();
    expect(kept[kept.length - 1]!.wish.shown).toBe(true);
  });

  test('stays where somebody has pushed its window while displays change elsewhere', async () => {
    plug(LAPTOP);
    const wall = open();
    load(wall);
    const window = wall.current() as unknown as StandInWindow;
    window.setBounds({ x: 7, y: 9 });
    screen.emit('display-metrics-changed', {}, {}, ['workArea']);
    clock.advance(1000);
    expect(window.getBounds()).toMatchObject({ x: 7, y: 9 });
    await expect.poll(() => seen(wall)).toBe('window on Built-in');
  });
});

function rectangle(x: number, width: number, height: number) {
  return { x, y: 0, width, height };
}
