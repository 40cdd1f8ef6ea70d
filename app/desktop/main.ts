/*
 * The desktop program: decides where its data is, sees to it that there is one of it, and begins when
 * Electron is ready. Everything that has to be said before that is said here.
 */

import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { app, dialog, Menu } from 'electron';
import { dataFolder } from '../host/lock/data-folder.ts';
import { registerScheme } from './pages/app-pages.ts';
import { startArguments } from './startup/arguments.ts';
import { executableOf, STARTED_APART, wordsForXServer } from './startup/display-server.ts';
import { bringOver } from './startup/older-data.ts';
import { startProgram, type Program } from './program.ts';

const given = startArguments(process.argv, process.defaultApp ?? false, process.cwd());

main();

function main(): void {
  // Whoever started the program may be gone by the time that something is printed.
  for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined);
  const { platform, env, argv } = process;
  const again = wordsForXServer({ platform, env, argv, chosen: app.commandLine.getSwitchValue('ozone-platform') });
  if (again) {
    spawn(executableOf(process), again, STARTED_APART).unref();
    return app.exit(0);
  }
  if (given.data !== null && !keepDataIn(given.data)) return;
  if (app.requestSingleInstanceLock({ session: given.session })) begin();
  else app.quit();
}

/** Chromium keeps its own files in `userData` itself; another folder for the data is another program. */
function keepDataIn(folder: string): boolean {
  const browser = join(folder, 'browser');
  try {
    mkdirSync(browser, { recursive: true });
  } catch (error) {
    refuse(`${folder}: no folder can be made there (${reasonOf(error)}).`);
    return false;
  }
  app.setPath('userData', browser);
  return true;
}

function begin(): void {
  // It would take back a --no-sandbox that was given (App::EnableSandbox), when processes without one run already.
  if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
  registerScheme();
  Menu.setApplicationMenu(null);
  const program = app
    .whenReady()
    .then(start)
    .catch((error: unknown) => refuse(reasonOf(error)));
  // A file that comes before there is anybody to open it waits for the program like every other.
  const openFile = (path: string): void => void program.then((running) => running?.openFile(path, null));
  app.on('open-file', (event, path) => {
    event.preventDefault();
    openFile(path);
  });
  // The words of the other process come in Chromium's order, with switches of its own among them
  // (documentation of the event): what it hands over itself is what it means.
  app.on('second-instance', (_event, _argv, _folder, more) => {
    void program.then((running) => running?.focus());
    const session = sessionIn(more);
    if (session !== null) openFile(session);
  });
  // A click on the Dock.
  app.on('activate', () => void program.then((running) => running?.focus()));
  // Without a listener Electron would end the program while a window is being replaced.
  app.on('window-all-closed', () => undefined);
}

async function start(): Promise<Program | null> {
  const { platform, env } = process;
  const folder = given.data ?? dataFolder({ platform, env, home: homedir() });
  // Where that fails it is tried again the next time.
  if (given.data === null) await bringOver(join(app.getPath('userData'), 'data'), folder).catch(() => undefined);
  const started = await startProgram(folder, join(__dirname, '..', 'pages'));
  if (!started.ok) return refuse(started.why);
  if (given.session !== null) await started.program.openFile(given.session, given.lanes);
  return started.program;
}

function refuse(why: string): null {
  // Whoever started a packed program sees no other word of it.
  if (app.isPackaged) dialog.showErrorBox('Lanecall cannot start', why);
  process.stderr.write(`${why}\n`, () => app.exit(1));
  return null;
}

function sessionIn(more: unknown): string | null {
  const { session } = (typeof more === 'object' && more !== null ? more : {}) as { readonly session?: unknown };
  return typeof session === 'string' ? session : null;
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
