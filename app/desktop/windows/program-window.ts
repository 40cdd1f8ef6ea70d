/*
 * One of the program's windows, from its creation to its end. Windows are made nowhere else: each has a page with the
 * same restrictions, stays on its own address, and comes back by itself when its page dies.
 */

import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { BrowserWindow, type BrowserWindowConstructorOptions } from 'electron';
import { guardNavigation } from '../pages/address-rules.ts';
import { isFull, leaveBeforeClosing } from './full-screen.ts';
import { afterDeath } from './restarts.ts';
import { webPreferences } from './web-preferences.ts';
import { pageAddress, plainAddress, type WindowKind } from './window-kind.ts';

export interface WindowLook extends Pick<BrowserWindowConstructorOptions, 'x' | 'y' | 'width' | 'height'> {
  readonly title: string;
  /** Whether the keyboard goes to it when it opens. */
  readonly takesFocus: boolean;
}

export interface WindowEvents {
  /** A `BrowserWindow` has been made: the first, and one each time the page has died. */
  made(window: BrowserWindow): void;
  /** The page has been loaded. */
  loaded(window: BrowserWindow): void;
  /** The page of this `webContents.id` is gone: left, reloaded or dead. */
  pageGone(contents: number): void;
  /** Somebody has closed it. */
  closed(): void;
}

export interface ProgramWindow {
  /** null while it is closed. */
  current(): BrowserWindow | null;
  /** Opens it, or brings it to the front. */
  open(look: WindowLook): void;
  close(): void;
}

/** The wall screen's own colour, so that nothing flashes before its page is there. */
const BACKGROUND = '#04131b';

export function programWindow(kind: WindowKind, events: WindowEvents): ProgramWindow {
  let window: BrowserWindow | null = null;
  let deaths: number[] = [];

  const make = (look: WindowLook, address: string): void => {
    const { takesFocus, ...shape } = look;
    const made = new BrowserWindow({
      ...shape,
      show: false,
      autoHideMenuBar: kind === 'wall',
      backgroundColor: BACKGROUND,
      webPreferences: webPreferences(join(__dirname, `preload-${kind}.cjs`)),
    });
    const contents = made.webContents;
    const { id } = contents;
    window = made;
    guardNavigation(contents, kind);
    // Not `did-start-navigation`: that comes even where the navigation is then refused (documentation, "Navigation
    // Events").
    contents.on('did-navigate', () => events.pageGone(id));
    contents.on('did-finish-load', () => events.loaded(made));
    contents.on('render-process-gone', (_, { reason }) => {
      events.pageGone(id);
      // Not within the event: Chromium is still taking the old page down.
      setImmediate(() => died(made, look, reason));
    });
    made.on('closed', () => {
      events.pageGone(id);
      if (window !== made) return;
      window = null;
      events.closed();
    });
    events.made(made);
    show(made, takesFocus);
    // Chromium shows an error page by itself; there is nobody else to tell.
    contents.loadURL(address).catch(() => undefined);
  };

  const died = (dead: BrowserWindow, look: WindowLook, reason: string): void => {
    if (window !== dead) return;
    const now = performance.now();
    const wasPlain = dead.webContents.getURL() === plainAddress(kind);
    const then = afterDeath(reason, deaths, now, wasPlain);
    if (then === 'nothing') return;
    deaths = [...deaths.slice(-9), now];
    const where = isFull(dead, process.platform) ? {} : dead.getBounds();
    make({ ...look, ...where, takesFocus: false }, then === 'again' ? pageAddress(kind) : plainAddress(kind));
    leaveBeforeClosing(dead, process.platform);
    dead.destroy();
  };

  return {
    current: () => window,
    open(look) {
      if (!window) return make(look, pageAddress(kind));
      if (window.isMinimized()) window.restore();
      window.show();
      window.focus();
    },
    close: () => window?.close(),
  };
}

function show(window: BrowserWindow, takesFocus: boolean): void {
  if (takesFocus) window.show();
  else window.showInactive();
}
