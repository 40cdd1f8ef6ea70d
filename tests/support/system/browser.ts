/*
 * The browser that the end-to-end tests drive: one that is there already, or one fetched on the first
 * run, from Debian where that is possible and otherwise by the test library's own installer.
 */

import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright';

const PLAYWRIGHT = fileURLToPath(new URL('../../../node_modules/playwright/cli.js', import.meta.url));
const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
/** Debian's Chromium that can open no window: the same engine, a third less work for the machine. */
const WINDOWLESS = 'chromium-headless-shell';

/**
 * @returns the path of a Chromium, or null where there is none: `LANECALL_CHROMIUM` if set (it must
 * exist, else this throws), one on the path, the macOS application, or the test library's own
 */
export function findBrowser(env: NodeJS.ProcessEnv = process.env, names: readonly string[] = NAMES): string | null {
  const named = env['LANECALL_CHROMIUM'] ?? '';
  if (named !== '') {
    if (!isProgram(named)) throw new Error(`LANECALL_CHROMIUM names no program: ${named}`);
    return named;
  }
  const folders = (env['PATH'] ?? '').split(process.platform === 'win32' ? ';' : ':').concat('/usr/bin');
  const installed = names.flatMap((name) => folders.map((folder) => join(folder, name)));
  const application = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome';
  return [...installed, application, chromium.executablePath()].find(isProgram) ?? null;
}

/** The same for tests that open no window: where Debian's has none of its own, any. */
function findWindowless(): string | null {
  return findBrowser(process.env, [WINDOWLESS, ...NAMES]);
}

/** @returns the path of a Chromium, perhaps one without windows; throws where there is none (`npm test` installs it) */
export function browserPath(): string {
  const path = findWindowless();
  if (path === null)
    throw new Error('There is no Chromium here: run npm test, which installs one, or set LANECALL_CHROMIUM.');
  return path;
}

/** Finds or installs a Chromium; everything the installers print goes to standard error. */
export function installBrowser(): string {
  const found = findWindowless();
  if (found !== null) return found;
  process.stderr.write('Installing Chromium for the end-to-end tests (once).\n');
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    run('apt-get', ['update', '-q']);
    // An older Debian has it only with windows.
    for (const name of [WINDOWLESS, 'chromium']) {
      if (findWindowless() === null) run('apt-get', ['install', '-q', '-y', '--no-install-recommends', name]);
    }
  }
  if (findWindowless() === null) run(process.execPath, [PLAYWRIGHT, 'install', 'chromium']);
  return browserPath();
}

function run(command: string, args: readonly string[]): void {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  // A failure shows in what is printed, and in there being no browser afterwards.
  spawnSync(command, args, { env, stdio: ['ignore', 2, 2] });
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
