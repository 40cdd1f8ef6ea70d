/*
 * The wall screen's window while displays come and go, on the stand-in's windows and a clock of the test's.
 */

import type Electron from 'electron';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import type { WallPlace, WallWish } from '../../../app/desktop/windows/displays.ts';
import { wallWindow, type WallWindow } from '../../../app/desktop/windows/wall-window.ts';
import { FakeClock } from '../../support/clock/fake-clock.ts';
import { StandInIpcMain } from '../../support/electron-stand-in/system/messages.ts';
import { StandInSession } from '../../support/electron-stand-in/system/session.ts';
import { StandInScreen, type StandInDisplay } from '../../support/electron-stand-in/system/system.ts';
import { StandInWindow } from '../../support/electron-stand-in/window.ts';

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
    platform: 'linux',
    later: (call, wait) => void clock.timers.set(call, wait),
  };
  StandInWindow.isDockHidden = false;
  clock = new FakeClock();
  told = [];
  kept = [];
  ending = false;
});

function open(wish: WallWish = WISH, platform: NodeJS.Platform = 'linux', isWayland = false): WallWindow {
  StandInWindow.ports = { ...StandInWindow.ports!, platform, isWayland };
  const ports = {
    timers: clock.timers,
    desktop: { platform, placesWindows: !isWayland },
    coachOn: () => LAPTOP.id,
    isEnding: () => ending,
    tell: (sentence: string | null) => void told.push(sentence),
    changed: (changed: WallWish, place: WallPlace) => void kept.push({ wish: changed, place }),
  };
  return wallWindow(wish, ports, { made: () => undefined, pageGone: () => undefined });
}

/** What the window is once the system has done what it was asked. */
function seen(wall: WallWindow): string {
  clock.advance(10_000);
  const window = wall.current() as unknown as StandInWindow | null;
  if (!window) return 'none';
  const isFull = window.isFullScreen() || window.isSimpleFullScreen();
  return `${isFull ? 'full' : 'window'} on ${screen.getDisplayMatching(window.getBounds()).label}`;
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
  test('opens on the television, follows it away and back, and says where it is meanwhile', () => {
    const wall = open(WISH, platform);
    load(wall);
    expect(seen(wall)).toBe('full on Pool TV');
    expect(kept[kept.length - 1]!.wish.display).toEqual({ id: 2, label: 'Pool TV', width: 1920, height: 1080 });
    plug(LAPTOP);
    expect(seen(wall)).toBe('window on Built-in');
    expect(told[told.length - 1]).toContain('Pool TV');
    plug(LAPTOP, { ...TV, id: 9 });
    expect(seen(wall)).toBe('full on Pool TV');
    expect(told[told.length - 1]).toBeNull();
  });

  test('moves from one television to another, and is back there when it was away', () => {
    plug(LAPTOP, TV, OTHER);
    const wall = open(WISH, platform);
    load(wall);
    wall.moveTo(screen.getAllDisplays()[2]!);
    expect(seen(wall)).toBe('full on Other TV');
    plug(LAPTOP, TV);
    expect(seen(wall)).toBe('full on Pool TV');
    plug(LAPTOP, TV, OTHER);
    expect(seen(wall)).toBe('full on Other TV');
  });
});

describe.each(['linux', 'darwin', 'win32'] as const)(
  '[displays] on %s a wall screen that is full screen',
  (platform) => {
    const bounds = (wall: WallWindow) => (wall.current() as unknown as StandInWindow).getBounds();

    test('goes into a window of its size on request, and back', () => {
      const wall = open(WISH, platform);
      load(wall);
      expect(seen(wall)).toBe('full on Pool TV');
      wall.look('window');
      expect(seen(wall)).toBe('window on Pool TV');
      const place = wall.place();
      expect(bounds(wall)).toEqual(place.look === 'window' && place.bounds);
      wall.look('full screen');
      expect(seen(wall)).toBe('full on Pool TV');
    });

    test('ends up where it was wanted last, whatever was under way', () => {
      plug(LAPTOP, TV, OTHER);
      const wall = open(WISH, platform);
      load(wall);
      const [, tv, other] = screen.getAllDisplays();
      for (const display of [other!, tv!, other!]) {
        wall.moveTo(display);
        clock.advance(30);
      }
      wall.look('window');
      clock.advance(10);
      wall.look('full screen');
      expect(seen(wall)).toBe('full on Other TV');
    });

    test('is put again where the system has put it elsewhere meanwhile', () => {
      const wall = open(WISH, platform);
      load(wall);
      expect(seen(wall)).toBe('full on Pool TV');
      plug(LAPTOP);
      clock.advance(1300);
      // A window manager that comes late with the bounds from before.
      (wall.current() as unknown as StandInWindow).setBounds({ x: 1280, y: 0, width: 1920, height: 1080 });
      expect(seen(wall)).toBe('window on Built-in');
      const place = wall.place();
      expect(bounds(wall)).toEqual(place.look === 'window' && place.bounds);
    });

    test('is left to whoever takes hold of it half a second after it was put into a window', () => {
      const wall = open(WISH, platform);
      load(wall);
      expect(seen(wall)).toBe('full on Pool TV');
      wall.look('window');
      clock.advance(600);
      const window = wall.current() as unknown as StandInWindow;
      window.setBounds({ x: 300, y: 200 });
      expect(seen(wall)).toBe('window on Built-in');
      expect(window.getBounds()).toMatchObject({ x: 300, y: 200 });
    });

    test('leaves Dock and menu bar to everybody when it is closed', () => {
      const wall = open(WISH, platform);
      load(wall);
      expect(seen(wall)).toBe('full on Pool TV');
      expect(StandInWindow.isDockHidden).toBe(platform === 'darwin');
      wall.show(false);
      expect(StandInWindow.isDockHidden).toBe(false);
    });
  },
);

describe('[displays] the wall screen', () => {
  test('is asked once for full screen, and once for a window, where the desktop places windows by itself', () => {
    const wall = open(WISH, 'linux', true);
    const window = wall.current() as unknown as StandInWindow;
    const asked: boolean[] = [];
    for (const event of ['enter-full-screen', 'leave-full-screen'])
      window.on(event, () => asked.push(window.isFullScreen()));
    load(wall);
    clock.advance(10_000);
    wall.look('window');
    clock.advance(10_000);
    expect(asked).toEqual([true, false]);
    const { look, bounds } = wall.place() as { look: string; bounds: { width: number; height: number } };
    expect([look, window.getBounds().width, window.getBounds().height]).toEqual([
      'window',
      bounds.width,
      bounds.height,
    ]);
  });

  test('waits until a television that comes, goes and comes again has made up its mind', () => {
    const wall = open();
    load(wall);
    expect(seen(wall)).toBe('full on Pool TV');
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
    expect(seen(wall)).toBe('full on Pool TV');
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

  test('is wanted still where every display was away for a moment', () => {
    const wall = open();
    plug();
    clock.advance(1000);
    expect([wall.current(), wall.wish().shown]).toEqual([null, true]);
    plug(LAPTOP, TV);
    clock.advance(1000);
    load(wall);
    expect(seen(wall)).toBe('full on Pool TV');
  });

  test('whose window the system has opened elsewhere is brought to its place once its page is there', () => {
    plug(LAPTOP);
    const wall = open();
    const window = wall.current() as unknown as StandInWindow;
    window.setBounds({ x: 900, y: 700 });
    load(wall);
    const place = wall.place();
    expect(window.getBounds()).toEqual(place.look === 'window' && place.bounds);
  });

  test('stays where somebody has pushed its window while displays change elsewhere', () => {
    plug(LAPTOP);
    const wall = open();
    load(wall);
    expect(seen(wall)).toBe('window on Built-in');
    const window = wall.current() as unknown as StandInWindow;
    window.setBounds({ x: 7, y: 9 });
    screen.emit('display-metrics-changed', {}, {}, ['workArea']);
    clock.advance(1000);
    expect(window.getBounds()).toMatchObject({ x: 7, y: 9 });
    expect(seen(wall)).toBe('window on Built-in');
  });
});

describe("[displays] the wall screen's window", () => {
  test('opens over its display, by its name, without a menu bar and without the keyboard', () => {
    const bars: boolean[] = [];
    const asked: Electron.BrowserWindowConstructorOptions[] = [];
    electron.BrowserWindow = class extends StandInWindow {
      constructor(options: Electron.BrowserWindowConstructorOptions) {
        super(options);
        asked.push(options);
      }
      override setMenuBarVisibility(...shown: boolean[]): void {
        bars.push(...shown);
      }
    };
    const wall = open();
    expect(asked[0]).toMatchObject({ ...TV.bounds, title: 'Lanecall wall screen' });
    expect(asked[0]!.webPreferences!.preload).toMatch(/preload-wall\.cjs$/);
    expect(bars).toEqual([false]);
    expect((wall.current() as unknown as StandInWindow).isFocused()).toBe(false);
    expect(wall.wish()).toEqual({ ...WISH, display: { id: 2, label: 'Pool TV', width: 1920, height: 1080 } });
  });

  test.each(['display-added', 'display-removed', 'display-metrics-changed'])(
    'looks where it belongs after %s',
    (event) => {
      const wall = open();
      load(wall);
      expect(seen(wall)).toBe('full on Pool TV');
      screen.displays = [LAPTOP];
      screen.emit(event, {}, {});
      clock.advance(999);
      expect(wall.place().look).toBe('full screen');
      clock.advance(1);
      expect(wall.place().look).toBe('window');
    },
  );

  test.each([
    ['across', rectangle(0, 1600, 800)],
    ['down', rectangle(0, 1280, 1200)],
  ])('is put anew where its place has moved %s', (_, bounds) => {
    plug(LAPTOP);
    const wall = open();
    load(wall);
    expect(seen(wall)).toBe('window on Built-in');
    const window = wall.current() as unknown as StandInWindow;
    window.setBounds({ x: 7, y: 9 });
    plug({ ...LAPTOP, bounds });
    clock.advance(1000);
    const place = wall.place();
    expect(window.getBounds()).toEqual(place.look === 'window' && place.bounds);
  });

  test('that is moved by the coach while displays settle is placed once, and not again when they have', () => {
    const wall = open();
    load(wall);
    screen.emit('display-added', {}, {});
    const before = kept.length;
    wall.look('window');
    clock.advance(60_000);
    expect(kept.length).toBe(before + 1);
  });
});

function rectangle(x: number, width: number, height: number) {
  return { x, y: 0, width, height };
}
