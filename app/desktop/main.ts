/*
 * The desktop program starts here. It chooses the data folder, makes sure that no other program uses it, and goes on
 * when Electron is ready. Whatever Electron must be told before that is told here.
 */

import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { app, dialog, Menu } from 'electron';
import { dataFolder } from '../host/lock/data-folder.ts';
import { hasXServer } from '../host/x-server.ts';
import { registerScheme } from './pages/app-pages.ts';
import { startArguments } from './startup/arguments.ts';
import { executableOf, STARTED_APART, wordsForXServer } from './startup/display-server.ts';
import { bringOver } from './startup/older-data.ts';
import { startProgram, type Program } from './program.ts';

const given = startArguments(process.argv, process.defaultApp ?? false, process.cwd());

main();

function main(): void {
  // Printing to a terminal that has been closed must not end the program.
  for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined);
  const { platform, env, argv } = process;
  const chosen = app.commandLine.getSwitchValue('ozone-platform');
  const again = wordsForXServer({ platform, argv, chosen, hasX: hasXServer(env) });
  if (again) {
    spawn(executableOf(process), again, STARTED_APART).unref();
    return app.exit(0);
  }
  if (given.data !== null && !keepDataIn(given.data)) return;
  if (app.requestSingleInstanceLock({ session: given.session })) begin();
  else app.quit();
}

/**
 * Chromium keeps its own files in `userData`, and one program at a time may use that. Another data folder gets its
 * own, so that two programs can run side by side.
 */
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
  // It would undo a given --no-sandbox (App::EnableSandbox) after processes without a sandbox have started.
  if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
  registerScheme();
  Menu.setApplicationMenu(null);
  const program = app
    .whenReady()
    .then(start)
    .catch((error: unknown) => refuse(reasonOf(error)));
  // A file that is opened during the start waits until the program can open it.
  const openFile = (path: string): void => void program.then((running) => running?.openFile(path, null));
  app.on('open-file', (event, path) => {
    event.preventDefault();
    openFile(path);
  });
  // The other process's arguments arrive in another order, with Chromium's own switches among them (documentation of
  // the event). So the path is taken from the data that it sends along.
  app.on('second-instance', (_event, _argv, _folder, more) => {
    void program.then((running) => running?.focus());
    const session = sessionIn(more);
    if (session !== null) openFile(session);
  });
  // macOS: a click on the Dock.
  app.on('activate', () => void program.then((running) => running?.focus()));
  // Without a listener Electron would end the program while a window is being replaced.
  app.on('window-all-closed', () => undefined);
}

async function start(): Promise<Program | null> {
  const { platform, env } = process;
  const folder = given.data ?? dataFolder({ platform, env, home: homedir() });
  // If that fails, the next start tries again.
  if (given.data === null) await bringOver(join(app.getPath('userData'), 'data'), folder).catch(() => undefined);
  const started = await startProgram(folder, join(__dirname, '..', 'pages'));
  if (!started.ok) return refuse(started.why);
  if (given.session !== null) await started.program.openFile(given.session, given.lanes);
  return started.program;
}

function refuse(why: string): null {
  // A packed program has no terminal: its user sees only this box.
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
