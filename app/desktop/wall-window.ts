/*
 * The wall screen's window, kept where it belongs while displays come and go: a television that is switched
 * off and on is unplugged and plugged for the system. The run hears nothing of all this.
 */

import { screen, type BrowserWindow } from 'electron';
import type { Timer, Timers } from '../host/time/timers.ts';
import {
  placeForWall,
  remembered,
  wallNotice,
  type Desktop,
  type SomeDisplay,
  type WallPlace,
  type WallWish,
} from './displays.ts';
import { programWindow, type WindowEvents } from './program-window.ts';

export interface WallPorts {
  readonly timers: Timers;
  readonly desktop: Desktop;
  /** The display with the coach's window. */
  coachOn(): number;
  /** Whether the whole program is ending, so that a closed window says nothing about a wish. */
  isEnding(): boolean;
  /** For the coach; null when all is well. */
  tell(sentence: string | null): void;
  /** The wish has changed and is to be kept, or the place and the menu are to be made anew. */
  changed(wish: WallWish, place: WallPlace): void;
}

export interface WallWindow {
  current(): BrowserWindow | null;
  wish(): WallWish;
  place(): WallPlace;
  show(shown: boolean): void;
  look(look: WallWish['look']): void;
  moveTo(display: SomeDisplay): void;
}

/** In ms: a television that is switched on comes, goes and comes again. */
const SETTLING = 1000;

export function wallWindow(
  first: WallWish,
  ports: WallPorts,
  events: Pick<WindowEvents, 'made' | 'pageGone'>,
): WallWindow {
  let wish = first;
  let place: WallPlace = { look: 'none' };
  let timer: Timer | null = null;

  const window = programWindow('wall', {
    made(made) {
      made.setMenuBarVisibility(false);
      events.made(made);
    },
    loaded: (made) => putIn(made, () => place, true, ports.desktop.platform),
    pageGone: events.pageGone,
    closed() {
      // Closed by hand: it stays closed until it is asked for.
      if (place.look === 'none' || ports.isEnding()) return;
      wish = { ...wish, shown: false };
      settle();
    },
  });

  /** Brings the window to where it belongs now. */
  const settle = (): void => {
    if (timer) ports.timers.clear(timer);
    timer = null;
    const before = place;
    place = placeForWall(screen.getAllDisplays(), ports.coachOn(), wish);
    if (place.look === 'full screen' && wish.display === null) wish = { ...wish, display: remembered(place.display) };
    if (place.look === 'none') window.close();
    else if (window.current())
      putIn(window.current()!, () => place, !isSamePlace(before, place), ports.desktop.platform);
    else window.open({ ...boundsOf(place), title: 'Lanecall wall screen', takesFocus: false });
    ports.tell(wallNotice(place, wish, ports.desktop));
    ports.changed(wish, place);
  };

  const settleSoon = (): void => {
    if (timer) ports.timers.clear(timer);
    timer = ports.timers.set(settle, SETTLING);
  };
  screen.on('display-added', settleSoon);
  screen.on('display-removed', settleSoon);
  screen.on('display-metrics-changed', settleSoon);
  settle();

  const wanted = (change: Partial<WallWish>): void => {
    wish = { ...wish, ...change };
    settle();
  };
  return {
    current: window.current,
    wish: () => wish,
    place: () => place,
    show: (shown) => wanted({ shown }),
    look: (look) => wanted({ shown: true, look }),
    moveTo: (display) => wanted({ shown: true, display: remembered(display) }),
  };
}

function boundsOf(place: Exclude<WallPlace, { look: 'none' }>) {
  return place.look === 'window' ? place.bounds : place.display.bounds;
}

function isSamePlace(a: WallPlace, b: WallPlace): boolean {
  if (a.look === 'full screen' && b.look === 'full screen') return a.display.id === b.display.id;
  return a.look === 'window' && b.look === 'window' && a.bounds.x === b.bounds.x && a.bounds.y === b.bounds.y;
}

/**
 * Brings a window to a place, as that is when it gets there. `moves`: also one that somebody may have moved by
 * hand.
 */
function putIn(window: BrowserWindow, placeNow: () => WallPlace, moves: boolean, platform: NodeJS.Platform): void {
  const place = placeNow();
  if (place.look === 'none') return;
  if (!isFull(window, platform)) {
    if (moves || place.look === 'full screen') put(window, place, platform);
    return;
  }
  if (place.look === 'full screen' && screen.getDisplayMatching(window.getBounds()).id === place.display.id) return;
  // It can only be moved to another display while it is not full screen.
  if (platform === 'darwin') {
    setFull(window, false, platform);
    return put(window, place, platform);
  }
  // Asked for once more, because not every window manager has answered the first time.
  window.removeAllListeners('leave-full-screen');
  window.once('leave-full-screen', () => put(window, placeNow(), platform));
  setFull(window, false, platform);
}

function put(window: BrowserWindow, place: WallPlace, platform: NodeJS.Platform): void {
  if (window.isDestroyed() || place.look === 'none') return;
  window.setBounds(boundsOf(place));
  if (place.look === 'full screen') setFull(window, true, platform);
}

/** macOS gives a window in its own full screen a space of its own, slowly; the simple one is at once. */
function setFull(window: BrowserWindow, on: boolean, platform: NodeJS.Platform): void {
  if (platform === 'darwin') window.setSimpleFullScreen(on);
  else window.setFullScreen(on);
}

function isFull(window: BrowserWindow, platform: NodeJS.Platform): boolean {
  return platform === 'darwin' ? window.isSimpleFullScreen() : window.isFullScreen();
}
