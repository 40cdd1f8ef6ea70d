/*
 * Runs a program of Electron's on Node and Chromium: puts the stand-in in the place of the electron module,
 * loads the program's main file, and tells whoever started it where to look in, in Electron's own words.
 */

import { EventEmitter } from 'node:events';
import { existsSync, readFileSync, statSync } from 'node:fs';
import inspector from 'node:inspector';
import Module, { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { StandInApp } from './app.ts';
import { commandLineSwitches } from './command-line.ts';
import { displaysAtFirst } from './system/displays-at-first.ts';
import { StandInContents } from './contents.ts';
import { Engine } from './engine.ts';
import { StandInIpcMain } from './system/messages.ts';
import { StandInSession } from './system/session.ts';
import { StandInMenu, StandInMenuItem, StandInPowerSaveBlocker, StandInScreen } from './system/system.ts';
import { StandInWindow } from './window.ts';

/** words: as Electron's executable would be given them. */
export function runProgram(words: readonly string[]): void {
  const place = words.find((word) => !word.startsWith('-')) ?? '.';
  const main = mainFileOf(resolve(place));
  const app = new StandInApp(commandLineSwitches(words, process));
  const electron = standIn(app);
  replaceElectron(electron);
  const executable = process.argv[1]!;
  process.argv = [executable, ...words];
  Object.assign(process, { defaultApp: true, execPath: executable });
  if (words.some((word) => word.startsWith('--inspect='))) inspector.open(0);
  createRequire(main)(main);
  void begin(app, electron);
}

/** A second program has said by now that it does not stay. */
async function begin(app: StandInApp, { screen, session, ipcMain }: ReturnType<typeof standIn>): Promise<void> {
  if (app.isEnding) return;
  const engine = Engine.start(app.getPath('userData'));
  const { address, kill } = await engine.then((started) => ({
    address: started.address,
    kill: () => started.kill(),
  }));
  process.on('exit', kill);
  // Electron quits in good order when it is told to end, unless the program has taken the signal over since
  // (there is one handler of a signal: ElectronBrowserMainParts::InstallShutdownSignalHandlers).
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => process.listenerCount(signal) === 1 && app.quit());
  }
  StandInWindow.ports = {
    engine,
    ipcMain,
    session: session.defaultSession,
    displayOf: (bounds) => screen.getDisplayMatching(bounds).bounds,
    allClosed: () => app.windowsAllClosed(),
    platform: process.platform,
    later: (call, wait) => void setTimeout(call, wait),
  };
  app.connect({
    closeWindows() {
      for (const window of StandInWindow.getAllWindows()) window.close();
      return StandInWindow.all.length === 0;
    },
    end: (status) => process.exit(status),
  });
  process.stderr.write(`DevTools listening on ${address}\n`);
  app.setReady();
}

function standIn(app: StandInApp) {
  const session = new StandInSession();
  return {
    app,
    BrowserWindow: StandInWindow,
    webContents: {
      getAllWebContents: () => [...StandInContents.all],
      fromId: (id: number) => [...StandInContents.all].find((contents) => contents.id === id),
      fromDevToolsTargetId: (target: string) => [...StandInContents.all].find((contents) => contents.target === target),
    },
    ipcMain: new StandInIpcMain(),
    Menu: StandInMenu,
    MenuItem: StandInMenuItem,
    screen: new StandInScreen(displaysAtFirst()),
    powerMonitor: new EventEmitter(),
    powerSaveBlocker: new StandInPowerSaveBlocker(),
    protocol: {
      ...session.protocol,
      registerSchemesAsPrivileged() {
        if (app.isReady()) throw new Error('protocol.registerSchemesAsPrivileged should be called before app is ready');
      },
    },
    session: { defaultSession: session },
  };
}

/** For the program, and for whoever asks for it through the inspector. */
function replaceElectron(electron: object): void {
  const loader = Module as unknown as { _load(name: string, ...rest: unknown[]): unknown };
  const load = loader._load;
  loader._load = function (name, ...rest) {
    return name === 'electron' ? electron : load.call(this, name, ...rest);
  };
}

function mainFileOf(place: string): string {
  if (existsSync(place) && statSync(place).isDirectory()) {
    const { main } = JSON.parse(readFileSync(join(place, 'package.json'), 'utf8')) as { readonly main: string };
    return join(place, main);
  }
  return place;
}
