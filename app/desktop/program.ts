/*
 * The running program: the host of the run and its loop in the main process, and the two windows that show it.
 * Nothing that happens to a window, a display or a page disturbs the run.
 */

import { app, Menu, screen, session, type BrowserWindow } from 'electron';
import { systemClock, type Clock } from '../host/time/clock.ts';
import type { DeckHost } from '../host/deck/deck-host.ts';
import type { Company } from '../host/deck/telling/company.ts';
import type { Shelves } from '../host/deck/answers/questions.ts';
import { openDeck } from '../host/deck/deck-opening.ts';
import { startLoop } from '../host/time/loop.ts';
import { DEFAULT_PORT } from '../host/web/http-server.ts';
import { readPages, type Pages } from '../host/web/pages.ts';
import { openSharing } from '../host/web/share.ts';
import { lifeSigns } from '../host/journal/life-signs.ts';
import { systemTimers } from '../host/time/timers.ts';
import { CHANNELS } from '../wire/window-bridge.ts';
import { guardRequests } from './pages/address-rules.ts';
import { servePages } from './pages/app-pages.ts';
import { openDeckChannel } from './messages/deck-channel.ts';
import { deskWindow, type DeskWindow } from './windows/desk-window.ts';
import { placesWindows } from './startup/display-server.ts';
import { menuTemplate, type MenuActions } from './menu.ts';
import { nameSaveDialogs } from './pages/downloads.ts';
import { listenForEndings, watchSessionEnd, type Endings } from './shutdown/endings.ts';
import { openFile } from './startup/opened-file.ts';
import { guardPermissions } from './pages/permissions.ts';
import { keepsAwake, signNow, stayAwake, watchSleep } from './power.ts';
import { keepSettings, type KeptSettings } from './settings.ts';
import { keyForCoach } from './windows/wall-keys.ts';
import { wallWindow, type WallWindow } from './windows/wall-window.ts';
import { wayOut } from './shutdown/way-out.ts';
import type { WindowKind } from './windows/window-kind.ts';

export interface Program {
  /** Brings the coach's window to the front. */
  focus(): void;
  openFile(path: string, lanes: string | null): Promise<void>;
}

export type ProgramStart =
  { readonly ok: true; readonly program: Program } | { readonly ok: false; readonly why: string };

/** folder: for the data; pages: where the built pages are. Electron must be ready. */
export async function startProgram(folder: string, pages: string): Promise<ProgramStart> {
  const clock = systemClock();
  const timers = systemTimers;
  const opening = await openDeck(folder, clock, timers);
  if (!opening.ok) return opening;
  const { host, journal, library, squads, records, close } = opening.deck;
  const settings = await keepSettings(folder);
  const built = readPages(pages);
  shutIn(built);
  const ports = () => ({ network: DEFAULT_PORT, pages: null });
  const { sharing, company, takeUp } = openSharing({ deck: opening.deck, clock, timers, pages: built, ports });
  await takeUp();
  const out = wayOut({
    timers,
    now: () => clock.now(),
    isGoing() {
      const run = host.current();
      return run !== null && keepsAwake(run, Math.floor(clock.now() - run.openedAt));
    },
    tell: (sentence) => host.tell('closing', sentence),
    show: () => windows.desk.focus(),
  });
  const awake = stayAwake(host, clock);
  const endings: Endings = {
    wayOut: out,
    async end() {
      windows.end();
      awake.stop();
      loop.stop();
      await Promise.all([settings.written(), sharing.end('The program has ended.')]);
      await close();
    },
    endNow: () => signNow(host, clock, journal),
  };
  const windows = openWindows({ host, clock, company, library, squads, records }, settings, endings);
  const loop = startLoop(clock, timers, [lifeSigns(host, clock, journal), awake]);
  host.onChange(() => loop.wake());
  watchSleep(host, clock, journal, () => {
    loop.wake();
    windows.woken();
  });
  listenForEndings(endings);
  process.on('uncaughtException', (error) => host.tell('fault', faultText(error)));
  return {
    ok: true,
    program: {
      focus: windows.desk.focus,
      async openFile(path, lanes) {
        const file = await openFile(host, path, lanes);
        if (file) windows.desk.send(file);
      },
    },
  };
}

/**
 * To be called before there is any window: what pages may do, where they come from, and that they load nothing else.
 */
function shutIn(pages: Pages): void {
  guardPermissions(session.defaultSession);
  guardRequests(session.defaultSession);
  servePages(session.defaultSession, pages);
  nameSaveDialogs(session.defaultSession);
}

interface Windows {
  readonly desk: DeskWindow;
  woken(): void;
  /** From now on a window that closes is not remembered as closed by hand. */
  end(): void;
}

interface Deck extends Shelves {
  readonly host: DeckHost;
  readonly clock: Clock;
  readonly company: Company;
}

function openWindows({ host, clock, ...within }: Deck, settings: KeptSettings, endings: Endings): Windows {
  const timers = systemTimers;
  const kinds = new Map<number, WindowKind>();
  const channel = openDeckChannel(host, clock, {
    ...within,
    kindOf: (contents) => kinds.get(contents) ?? null,
    painted: (kind) => {
      const window = kind === 'desk' ? desk.current() : null;
      if (window) whenVisible(window, sayOpen);
    },
  });
  const made = (kind: WindowKind) => (window: BrowserWindow) => {
    kinds.set(window.webContents.id, kind);
    watchSessionEnd(window, endings);
  };
  let ending = false;

  const desk = deskWindow(
    settings.now().desk,
    {
      mayLeave: endings.wayOut.mayLeave,
      keep: (bounds) => settings.change({ desk: bounds }),
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
        const actions = (): MenuActions => ({ ...wall, showCoach: desk.focus });
        const template = menuTemplate({ displays, wish, place, platform: process.platform }, actions);
        Menu.setApplicationMenu(Menu.buildFromTemplate(template));
      },
    },
    {
      made(window) {
        made('wall')(window);
        passKeysOn(window, () => desk.current());
      },
      pageGone: channel.gone,
    },
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

function passKeysOn(from: BrowserWindow, to: () => BrowserWindow | null): void {
  from.webContents.on('before-input-event', (event, input) => {
    const key = keyForCoach(input);
    if (!key) return;
    event.preventDefault();
    to()?.webContents.send(CHANNELS.key, key);
  });
}

/** A page can be painted in a window that is not shown yet. */
function whenVisible(window: BrowserWindow, call: () => void): void {
  if (window.isVisible()) call();
  else window.once('show', call);
}

/** Tells the launcher that the coach's window can be seen. A reloaded page says it again; the launcher listens once. */
function sayOpen(): void {
  process.stdout.write('Lanecall is open.\n');
}

/** An error in one place must not end the run; left alone, Electron would stop everything with a box. */
function faultText(error: unknown): string {
  const reason = error instanceof Error ? error.message : String(error);
  return `Something in Lanecall went wrong (${reason}). The run goes on; quit Lanecall and start it again when it is over.`;
}
