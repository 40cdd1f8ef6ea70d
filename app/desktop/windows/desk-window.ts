/*
 * Opens and closes the coach's window. It opens where it was last, if a display is still there. Closing it ends the
 * program, so it closes only when the program may end.
 */

import { screen, type BrowserWindow, type Rectangle } from 'electron';
import { CHANNELS, type SessionFile } from '../../wire/window-bridge.ts';
import type { SomeDisplay } from './displays.ts';
import { programWindow, type WindowEvents, type WindowLook } from './program-window.ts';
import { isPageOf } from './window-kind.ts';

export interface DeskPorts {
  /** Closing it ends the program. */
  mayLeave(): boolean;
  /** Saves where the window is, for the next start. */
  keep(bounds: Rectangle): void;
}

export interface DeskWindow {
  current(): BrowserWindow | null;
  /** The display that it is on, by its id. */
  display(): number;
  focus(): void;
  /** Now, or when the page is there. */
  send(file: SessionFile): void;
}

/** Opens it. before: where it was last, null on a first start. */
export function deskWindow(
  before: Rectangle | null,
  ports: DeskPorts,
  events: Pick<WindowEvents, 'made' | 'pageGone' | 'closed'>,
): DeskWindow {
  // Files for the coach, kept until the page is loaded.
  let waiting: SessionFile[] = [];
  let loaded: BrowserWindow | null = null;

  const window = programWindow('desk', {
    ...events,
    made(made) {
      events.made(made);
      made.on('close', (event) => {
        ports.keep(made.getNormalBounds());
        if (!ports.mayLeave()) event.preventDefault();
      });
    },
    loaded(made) {
      if (!isPageOf('desk', made.webContents.getURL())) return;
      loaded = made;
      for (const file of waiting) made.webContents.send(CHANNELS.sessionFile, file);
      waiting = [];
    },
  });
  const look = deskLook(screen.getAllDisplays(), screen.getPrimaryDisplay().id, before);
  window.open(look);

  return {
    current: window.current,
    display: () => screen.getDisplayMatching(window.current()?.getBounds() ?? look).id,
    focus: () => window.open(look),
    send(file) {
      if (loaded && loaded === window.current()) loaded.webContents.send(CHANNELS.sessionFile, file);
      else waiting.push(file);
    },
  };
}

const WIDEST = 1280;
const TALLEST = 860;

/**
 * On a first start it opens on the built-in display, or on the primary one where the system names no built-in one.
 * Linux never does (ui/ozone/platform: only ChromeOS sets it).
 */
export function deskLook(
  displays: readonly SomeDisplay[],
  primary: number,
  before: Rectangle | null,
): WindowLook & Rectangle {
  const words = { title: 'Lanecall', takesFocus: true };
  if (before && displays.some(({ workArea }) => overlaps(workArea, before))) return { ...words, ...before };
  const own = displays.find(({ internal }) => internal) ?? displays.find(({ id }) => id === primary) ?? displays[0];
  const { x, y, width, height } = own?.workArea ?? { x: 0, y: 0, width: WIDEST, height: TALLEST };
  const size = { width: Math.min(WIDEST, width), height: Math.min(TALLEST, height) };
  return {
    ...words,
    ...size,
    x: x + Math.round((width - size.width) / 2),
    y: y + Math.round((height - size.height) / 2),
  };
}

/** How much of the title bar must be on a display so that the window can be dragged, in the display's own units. */
const HOLD = 80;

function overlaps(area: Rectangle, window: Rectangle): boolean {
  const across = Math.min(area.x + area.width, window.x + window.width) - Math.max(area.x, window.x);
  return across >= HOLD && window.y >= area.y && window.y <= area.y + area.height - HOLD;
}
