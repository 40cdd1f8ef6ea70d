/*
 * The desktop program: decides where its data is, sees to it that there is one of it, and begins when
 * Electron is ready. Everything that has to be said before that is said here.
 */

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { app, dialog, Menu } from 'electron';
import { registerScheme } from './app-pages.ts';
import { startArguments } from './arguments.ts';
import { startProgram, type Program } from './program.ts';

const given = startArguments(process.argv, process.defaultApp ?? false, process.cwd());
let program: Promise<Program | null> | null = null;
/** Files that the system hands over before there is anybody to open them. */
let early: string[] = given.session === null ? [] : [given.session];

// Chromium keeps its own files in `userData` itself; another folder for the data is another program.
if (given.data !== null) {
  const browser = join(given.data, 'browser');
  mkdirSync(browser, { recursive: true });
  app.setPath('userData', browser);
}
const folder = given.data ?? join(app.getPath('userData'), 'data');

if (app.requestSingleInstanceLock({ session: given.session })) begin();
else app.quit();

function begin(): void {
  // Whoever started the program may be gone by the time that something is printed.
  process.stdout.on('error', () => undefined);
  app.enableSandbox();
  // Wayland lets no program say where its windows go; beside an X server there is a way round it.
  if (process.platform === 'linux' && process.env['DISPLAY']) app.commandLine.appendSwitch('ozone-platform', 'x11');
  registerScheme();
  Menu.setApplicationMenu(null);
  app.on('open-file', (event, path) => {
    event.preventDefault();
    void openFile(path);
  });
  app.on('second-instance', (_, argv, cwd, more) => {
    const path = sessionIn(more) ?? startArguments(argv, process.defaultApp ?? false, cwd).session;
    void program?.then((running) => running?.focus());
    if (path !== null) void openFile(path);
  });
  // Without a listener Electron would end the program while a window is being replaced.
  app.on('window-all-closed', () => undefined);
  program = app
    .whenReady()
    .then(start)
    .catch((error: unknown) => refuse(error instanceof Error ? error.message : String(error)));
}

async function start(): Promise<Program | null> {
  const started = await startProgram(folder, join(__dirname, '..', 'pages'));
  if (!started.ok) return refuse(started.why);
  endInOrder(started.program);
  for (const path of early) await started.program.openFile(path, given.lanes);
  early = [];
  return started.program;
}

function refuse(why: string): null {
  // Whoever started a packed program sees no other word of it.
  if (app.isPackaged) dialog.showErrorBox('Lanecall cannot start', why);
  process.stderr.write(`${why}\n`);
  app.exit(1);
  return null;
}

async function openFile(path: string): Promise<void> {
  const running = await program;
  if (running) await running.openFile(path, null);
  else early.push(path);
}

/** The journal gets its last lines before the program goes. */
function endInOrder({ end }: Program): void {
  let ended: Promise<void> | null = null;
  app.on('before-quit', (event) => {
    event.preventDefault();
    ended ??= end().finally(() => app.exit(0));
  });
}

function sessionIn(more: unknown): string | null {
  const { session } = (typeof more === 'object' && more !== null ? more : {}) as { readonly session?: unknown };
  return typeof session === 'string' ? session : null;
}
