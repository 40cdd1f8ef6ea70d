/*
 * Which display the wall screen goes to, and what the coach is told about it. The one chosen before comes
 * first, wherever it is plugged in again; the display with the coach's window on it is never covered.
 */

import type { Display, Rectangle } from 'electron';

/** What is kept of a display, to know it again. Ids change with some systems, labels are not unique. */
export interface RememberedDisplay {
  readonly id: number;
  readonly label: string;
  readonly width: number;
  readonly height: number;
}

export interface WallWish {
  readonly shown: boolean;
  readonly look: 'full screen' | 'window';
  /** The display it was last put on on purpose, or at first; null for none yet. */
  readonly display: RememberedDisplay | null;
}

export type SomeDisplay = Pick<Display, 'id' | 'label' | 'bounds' | 'workArea' | 'internal'>;

export type WallPlace =
  | { readonly look: 'none' }
  | { readonly look: 'full screen'; readonly display: SomeDisplay }
  | { readonly look: 'window'; readonly bounds: Rectangle; readonly why: 'wanted' | 'one display' | 'gone' };

/** displays: all that are connected; coachOn: the id of the one with the coach's window. */
export function placeForWall(displays: readonly SomeDisplay[], coachOn: number, wish: WallWish): WallPlace {
  if (!wish.shown) return { look: 'none' };
  const coach = displays.find(({ id }) => id === coachOn) ?? displays[0];
  if (!coach) return { look: 'none' };
  const others = displays.filter((display) => display !== coach);
  const known = wish.display && find(others, wish.display);
  if (wish.look === 'window') {
    return { look: 'window', bounds: windowOn(known ?? coach), why: 'wanted' };
  }
  const target = known ?? others.find(({ internal }) => !internal) ?? others[0];
  if (target) return { look: 'full screen', display: target };
  return { look: 'window', bounds: windowOn(coach), why: wish.display ? 'gone' : 'one display' };
}

/** The connected display that is the remembered one, or most like it. */
export function find<D extends SomeDisplay>(displays: readonly D[], wanted: RememberedDisplay): D | undefined {
  const isSame = ({ label, bounds }: D): boolean =>
    label === wanted.label && bounds.width === wanted.width && bounds.height === wanted.height;
  // An id may by now be another display's: its label must not speak against it.
  return (
    displays.find((display) => display.id === wanted.id && display.label === wanted.label) ?? displays.find(isSame)
  );
}

export function remembered({ id, label, bounds: { width, height } }: SomeDisplay): RememberedDisplay {
  return { id, label, width, height };
}

/** What the desktop lets a program do with its windows. */
export interface Desktop {
  readonly platform: NodeJS.Platform;
  /** Whether windows go where they are put. */
  readonly placesWindows: boolean;
}

/** What the coach is told while the wall screen is not, or may not be, where it should be; null where all is well. */
export function wallNotice(place: WallPlace, wish: WallWish, { platform, placesWindows }: Desktop): string | null {
  if (place.look === 'full screen') return placesWindows ? null : NOT_PLACED;
  if (place.look === 'none' || place.why === 'wanted') return null;
  const how = `If a television shows the same as this display, extend onto it instead: ${extending(platform)}.`;
  if (place.why === 'one display') return `There is only one display, so the wall screen is in a window here. ${how}`;
  const name = wish.display?.label ? ` (${wish.display.label})` : '';
  return `The wall screen's display${name} is not there: it is in a window here, and goes back by itself. ${how}`;
}

const NOT_PLACED =
  'This desktop does not let a program choose the display of a window. If the wall screen is on the wrong one: ' +
  'menu Wall screen, In a window; drag it to the television; then Full screen.';

/** The words of each system's own settings. */
function extending(platform: NodeJS.Platform): string {
  if (platform === 'win32') return 'press the Windows key and P, and choose Extend';
  if (platform === 'darwin') return 'in System Settings, Displays, set it to Extended display';
  return "in the system's display settings, choose to join or extend the displays instead of mirroring them";
}

/** Two thirds of what the display has room for, at its lower right: the coach's window stays to be seen. */
function windowOn({ workArea }: SomeDisplay): Rectangle {
  const width = Math.round((workArea.width * 2) / 3);
  const height = Math.round((workArea.height * 2) / 3);
  return { x: workArea.x + workArea.width - width, y: workArea.y + workArea.height - height, width, height };
}
