/*
 * Brings the wall screen's window to where it belongs, and looks afterwards whether it is there. Systems do what
 * they are asked a little later, and in their own order: Windows says that full screen is left before it is, and
 * puts the window back to where it was after that (NativeWindowViews::SetFullScreen); a window manager of Linux
 * may do so at any time (electron/electron#34976, #31603). So nothing is done within those events.
 */

import { screen, type BrowserWindow, type Rectangle } from 'electron';
import type { Timer, Timers } from '../../host/time/timers.ts';
import type { WallPlace } from './displays.ts';
import { isFull, setFull } from './full-screen.ts';

export interface Placing {
  /** `moves`: also a window that somebody may have moved by hand. */
  put(window: BrowserWindow, moves: boolean): void;
}

/** When it is looked whether the window has got there, in ms after it was put. */
const LOOKS = [100, 400, 1500];

/** placeNow: where it belongs by the time that it is asked. */
export function placing(placeNow: () => WallPlace, platform: NodeJS.Platform, timers: Timers): Placing {
  let looks: Timer[] = [];
  const step = (window: BrowserWindow, moves: boolean): void => {
    const place = placeNow();
    if (!window.isDestroyed() && place.look !== 'none') stepTowards(window, place, moves, platform);
  };
  return {
    put(window, moves) {
      for (const look of looks) timers.clear(look);
      step(window, moves);
      looks = LOOKS.map((wait) => timers.set(() => step(window, moves), wait));
    },
  };
}

/** A window can only be moved while it is not full screen: the rest is done at the next look where leaving takes its time. */
function stepTowards(
  window: BrowserWindow,
  place: Exclude<WallPlace, { look: 'none' }>,
  moves: boolean,
  platform: NodeJS.Platform,
): void {
  const wasFull = isFull(window, platform);
  if (isThere(window, place, wasFull, moves)) return;
  if (wasFull) setFull(window, false, platform);
  if (isFull(window, platform)) return;
  window.setBounds(boundsOf(place));
  if (place.look === 'full screen') setFull(window, true, platform);
}

function isThere(
  window: BrowserWindow,
  place: Exclude<WallPlace, { look: 'none' }>,
  full: boolean,
  moves: boolean,
): boolean {
  if (place.look === 'full screen') {
    return full && screen.getDisplayMatching(window.getBounds()).id === place.display.id;
  }
  return !full && (!moves || isNear(window.getBounds(), place.bounds));
}

export function boundsOf(place: Exclude<WallPlace, { look: 'none' }>): Rectangle {
  return place.look === 'window' ? place.bounds : place.display.bounds;
}

/** Window managers add borders and keep clear of bars, in the display's own units. */
const ABOUT = 64;

function isNear(a: Rectangle, b: Rectangle): boolean {
  return (['x', 'y', 'width', 'height'] as const).every((side) => Math.abs(a[side] - b[side]) <= ABOUT);
}
