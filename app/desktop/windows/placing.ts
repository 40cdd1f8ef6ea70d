/*
 * Brings the wall screen's window to where it belongs, and looks afterwards whether it is there. No system does all of
 * it at once: Windows says that full screen is left before it is, and then puts the window back to where it was
 * (NativeWindowViews::SetFullScreen); under Linux the window manager does so a little later (electron/electron#34976,
 * #31603). So nothing is done within those events, and a window that leaves full screen is moved at the next look.
 */

import { screen, type BrowserWindow, type Rectangle } from 'electron';
import type { Timer, Timers } from '../../host/time/timers.ts';
import type { Desktop, WallPlace } from './displays.ts';
import { isFull, setFull } from './full-screen.ts';

export interface Placing {
  /** `moves`: also a window that somebody may have moved by hand. */
  put(window: BrowserWindow, moves: boolean): void;
}

type ShownPlace = Exclude<WallPlace, { look: 'none' }>;

/**
 * When it is looked whether the window has got there, in ms after the look before. Once it was there three times, it is
 * left alone: by then a coach may have taken hold of it.
 */
const LOOKS = [100, 100, 150, 150, 1000];
const ENOUGH = 3;

/** placeNow: where it belongs by the time that it is asked. */
export function placing(placeNow: () => WallPlace, desktop: Desktop, timers: Timers): Placing {
  let next: Timer | null = null;

  const look = (window: BrowserWindow, moves: boolean, looks: readonly number[], seenThere: number): void => {
    const place = placeNow();
    if (window.isDestroyed() || place.look === 'none') return;
    const there = isThere(window, place, moves, desktop) ? seenThere + 1 : 0;
    if (there === 0) stepTowards(window, place, desktop.platform);
    const [wait, ...rest] = looks;
    if (wait !== undefined && there < ENOUGH) next = timers.set(() => look(window, moves, rest, there), wait);
  };

  return {
    put(window, moves) {
      if (next) timers.clear(next);
      look(window, moves, LOOKS, 0);
    },
  };
}

/** A window can only be moved while it is not full screen, and the system has done with leaving it. */
function stepTowards(window: BrowserWindow, place: ShownPlace, platform: NodeJS.Platform): void {
  if (isFull(window, platform)) return setFull(window, false, platform);
  window.setBounds(boundsOf(place));
  if (place.look === 'full screen') setFull(window, true, platform);
}

/** Where the desktop places windows by itself, a window does not know where it is: then only its size counts. */
function isThere(
  window: BrowserWindow,
  place: ShownPlace,
  moves: boolean,
  { platform, placesWindows }: Desktop,
): boolean {
  const full = isFull(window, platform);
  const bounds = window.getBounds();
  if (place.look === 'full screen') {
    return full && (!placesWindows || screen.getDisplayMatching(bounds).id === place.display.id);
  }
  const at = placesWindows ? bounds : { ...bounds, x: place.bounds.x, y: place.bounds.y };
  return !full && (!moves || isNear(at, place.bounds));
}

export function boundsOf(place: ShownPlace): Rectangle {
  return place.look === 'window' ? place.bounds : place.display.bounds;
}

/** Window managers add borders and keep clear of bars, in the display's own units. */
const ABOUT = 64;

function isNear(a: Rectangle, b: Rectangle): boolean {
  return (['x', 'y', 'width', 'height'] as const).every((side) => Math.abs(a[side] - b[side]) <= ABOUT);
}
