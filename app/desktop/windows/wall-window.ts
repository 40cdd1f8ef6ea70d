/*
 * The wall screen's window, kept where it belongs while displays come and go. To the system, a television that is
 * switched off and on is unplugged and plugged in again. None of this reaches the run.
 */

import { screen, type BrowserWindow } from 'electron';
import type { Timer, Timers } from '../../host/time/timers.ts';
import {
  placeForWall,
  remembered,
  wallNotice,
  type Desktop,
  type SomeDisplay,
  type WallPlace,
  type WallWish,
} from './displays.ts';
import { leaveBeforeClosing } from './full-screen.ts';
import { boundsOf, placing } from './placing.ts';
import { programWindow, type WindowEvents } from './program-window.ts';

export interface WallPorts {
  readonly timers: Timers;
  readonly desktop: Desktop;
  /** The display with the coach's window. */
  coachOn(): number;
  /** Whether the whole program is ending: a window that closes then has not been closed by hand. */
  isEnding(): boolean;
  /** For the coach; null when all is well. */
  tell(sentence: string | null): void;
  /** The wish or the place may have changed: the wish is to be saved, and the menu made again. */
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

/**
 * How long the displays must have been quiet, in ms: a television that is switched on appears, vanishes and appears
 * again.
 */
const SETTLING = 1000;

export function wallWindow(
  first: WallWish,
  ports: WallPorts,
  events: Pick<WindowEvents, 'made' | 'pageGone'>,
): WallWindow {
  let wish = first;
  let place: WallPlace = { look: 'none' };
  let timer: Timer | null = null;
  const inPlace = placing(() => place, ports.desktop, ports.timers);

  const window = programWindow('wall', {
    made(made) {
      made.setMenuBarVisibility(false);
      made.on('close', () => leaveBeforeClosing(made, ports.desktop.platform));
      events.made(made);
    },
    loaded: (made) => inPlace.put(made, true),
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
    else if (window.current()) inPlace.put(window.current()!, !isSamePlace(before, place));
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

/** Of windows: one that fills its display is never where somebody has moved it. */
function isSamePlace(a: WallPlace, b: WallPlace): boolean {
  return a.look === 'window' && b.look === 'window' && a.bounds.x === b.bounds.x && a.bounds.y === b.bounds.y;
}
