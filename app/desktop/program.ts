/*
 * The running program: the host of the run and its loop in the main process, and the two windows that
 * show it. Nothing that happens to a window, a display or a page reaches the run.
 */

import { app, Menu, screen, session, type BrowserWindow } from 'electron';
import { systemClock, type Clock } from '../host/time/clock.ts';
import type { DeckHost } from '../host/deck/deck-host.ts';
import { openDeck } from '../host/deck/deck-opening.ts';
import { startLoop } from '../host/time/loop.ts';
import { readPages } from '../host/web/pages.ts';
import { lifeSigns } from '../host/journal/life-signs.ts';
import { systemTimers } from '../host/time/timers.ts';
import { CHANNELS } from '../wire/window-bridge.ts';
import { guardRequests } from './address-rules.ts';
import { servePages } from './app-pages.ts';
import { openDeckChannel } from './deck-channel.ts';
import { deskWindow, type DeskWindow } from './desk-window.ts';
import { placesWindows } from './display-server.ts';
import { menuTemplate } from './menu.ts';
import { openFile } from './opened-file.ts';
import { guardPermissions } from './permissions.ts';
import { keepsAwake, stayAwake, watchSleep } from './power.ts';
import { keepSettings, type KeptSettings } from './settings.ts';
import { wallWindow, type WallWindow } from './wall-window.ts';
import type { WindowKind } from './window-kind.ts';

export interface Program {
  /** Brings the coach's window to the front. */
  focus(): void;
  openFile(path: string, lanes: string | null): Promise<void>;
  /** Resolves when all that can be is written. */
  end(): Promise<void>;
}

export type ProgramStart =
  { readonly ok: true; readonly program: Program } | { readonly ok: false; readonly why: string };

/** folder: for the data; pages: where the built pages are. Electron must be ready. */
export async function startProgram(folder: string, pages: string): Promise<ProgramStart> {
  const clock = systemClock();
  const timers = systemTimers;
  const opening = await openDeck(folder, clock, timers);
  if (!opening.ok) return opening;
  const { host, journal, close } = opening.deck;
  const settings = await keepSettings(folder);
  shutIn(pages);
  const windows = openWindows(host, clock, settings);
  const awake = stayAwake(host, clock);
  const loop = startLoop(clock, timers, [lifeSigns(host, clock, journal), awake]);
  host.onChange(() => loop.wake());
  watchSleep(host, clock, journal, () => {
    loop.wake();
    windows.woken();
  });
  process.on('uncaughtException', (error) => host.tell('fault', faultText(error)));
  return {
    ok: true,
    program: {
      focus: windows.desk.focus,
      async openFile(path, lanes) {
        const file = await openFile(host, path, lanes);
        if (file) windows.desk.send(file);
      },
      async end() {
        windows.end();
        awake.stop();
        loop.stop();
        await settings.written();
        await close();
      },
    },
  };
}

/** Before there is any window: what pages may have, where they come from, and that nothing else is asked for. */
function shutIn(pages: string): void {
  guardPermissions(session.defaultSession);
  guardRequests(session.defaultSession);
  servePages(session.defaultSession, readPages(pages));
}

interface Windows {
  readonly desk: DeskWindow;
  woken(): void;
  /** From now on a window that closes says nothing about what is wanted. */
  end(): void;
}

function openWindows(host: DeckHost, clock: Clock, settings: KeptSettings): Windows {
  const timers = systemTimers;
  const kinds = new Map<number, WindowKind>();
  const channel = openDeckChannel(host, clock, (contents) => kinds.get(contents) ?? null);
  const made = (kind: WindowKind) => (window: BrowserWindow) => void kinds.set(window.webContents.id, kind);
  const isGoing = (): boolean => {
    const run = host.current();
    return run !== null && keepsAwake(run, Math.floor(clock.now() - run.openedAt));
  };
  let ending = false;

  const desk = deskWindow(
    settings.now().desk,
    {
      timers,
      now: clock.now,
      isGoing,
      tell: (sentence) => host.tell('closing', sentence),
      keep: (bounds) => settings.change({ desk: bounds }),
      opened: () => process.stdout.write(OPEN),
    },
    { made: made('desk'), pageGone: channel.gone, closed: () => app.quit() },
  );
  const wall: WallWindow = wallWindow(
    settings.now().wall,
    {
      timers,
      desktop: {
        platform: process.platform,
        placesWindows: placesWindows(process.platform, app.commandLine.getSwitchValue('ozone-platform')),
      },
      coachOn: desk.display,
      isEnding: () => ending,
      tell: (sentence) => host.tell('wall screen', sentence),
      changed(wish, place) {
        settings.change({ wall: wish });
        const displays = screen.getAllDisplays();
        const template = menuTemplate({ displays, wish, place, platform: process.platform }, () => wall);
        Menu.setApplicationMenu(Menu.buildFromTemplate(template));
      },
    },
    { made: made('wall'), pageGone: channel.gone },
  );

  return {
    desk,
    woken() {
      for (const window of [desk.current(), wall.current()]) window?.webContents.send(CHANNELS.woken);
    },
    end() {
      ending = true;
      const window = desk.current();
      if (window) settings.change({ desk: window.getNormalBounds() });
    },
  };
}

/** For whoever started the program: its first page is there. */
const OPEN = 'Lanecall is open.\n';

/** A fault of the program in one place must not end the run everywhere; Electron would stop it all with a box. */
function faultText(error: unknown): string {
  const reason = error instanceof Error ? error.message : String(error);
  return `Something is wrong in the program (${reason}). The run goes on; start Lanecall anew when it is over.`;
}
