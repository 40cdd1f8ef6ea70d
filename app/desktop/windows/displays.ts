/*
 * Which display the wall screen goes to, and what the coach is told about it. The display chosen last comes first,
 * wherever it is plugged in. The one with the coach's window is never covered.
 */

import type { Display, Rectangle } from 'electron';

/** What is saved of a display to recognise it. Some systems change ids, and labels are not unique. */
export interface RememberedDisplay {
  readonly id: number;
  readonly label: string;
  readonly width: number;
  readonly height: number;
}

export interface WallWish {
  readonly shown: boolean;
  readonly look: 'full screen' | 'window';
  /** The display chosen last; null if there was none yet. */
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
  // The same id may belong to another display by now, so the label must match too.
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
  /** Whether the program can place its windows. */
  readonly placesWindows: boolean;
}

/** What the coach is told while the wall screen may be in the wrong place; null when all is well. */
export function wallNotice(place: WallPlace, wish: WallWish, { platform, placesWindows }: Desktop): string | null {
  if (place.look === 'full screen') return placesWindows ? null : NOT_PLACED;
  if (place.look === 'none' || place.why === 'wanted') return null;
  const how = `If a television shows the same as this display, extend onto it instead: ${extending(platform)}.`;
  if (place.why === 'one display') return `There is only one display, so the wall screen is in a window here. ${how}`;
  const name = wish.display?.label ? ` (${wish.display.label})` : '';
  return `The wall screen's display${name} is not connected, so the wall screen is in a window here until it is. ${how}`;
}

const NOT_PLACED =
  'This desktop does not let Lanecall choose a display. If the wall screen is on the wrong one, choose In a window in ' +
  'the menu Wall screen, drag the window to the television, and choose Full screen.';

/** The words of each system's own settings. */
function extending(platform: NodeJS.Platform): string {
  if (platform === 'win32') return 'press the Windows key and P, and choose Extend';
  if (platform === 'darwin') return 'in System Settings, Displays, set it to Extended display';
  return "in the system's display settings, choose to join or extend the displays instead of mirroring them";
}

/** Two thirds of the display, at its lower right, so that the coach's window stays in sight. */
function windowOn({ workArea }: SomeDisplay): Rectangle {
  const width = Math.round((workArea.width * 2) / 3);
  const height = Math.round((workArea.height * 2) / 3);
  return { x: workArea.x + workArea.width - width, y: workArea.y + workArea.height - height, width, height };
}
