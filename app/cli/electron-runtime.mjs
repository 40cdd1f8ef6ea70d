/*
 * The Electron runtime that the desktop program runs on. Its package comes with the others, the runtime
 * itself is fetched once, when it is first wanted; where that cannot be done the program is served instead.
 */

import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';

// A download that has not grown for so long will not: a firewall that swallows everything says nothing.
const STALLED_MS = 20_000;
const LOOK_MS = 500;
// However slowly it grows: somebody is waiting for a clock.
const LONGEST_MS = 10 * 60_000;

/**
 * @param {string} root the clone's folder
 * @param {NodeJS.ProcessEnv} [env] may name a folder with a runtime in the package's own variable
 * @returns {string | null} the path of the runtime's executable, null where it is not there
 */
export function electronRuntime(root, env = process.env) {
  const folder = join(root, 'node_modules', 'electron');
  const elsewhere = env['ELECTRON_OVERRIDE_DIST_PATH'] ?? '';
  if (elsewhere !== '') {
    const path = join(elsewhere, process.platform === 'win32' ? 'electron.exe' : 'electron');
    return existsSync(path) ? path : null;
  }
  try {
    const version = readFileSync(join(folder, 'dist', 'version'), 'utf8')
      .trim()
      .replace(/^v/, '');
    const wanted = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')).version;
    const path = join(folder, 'dist', readFileSync(join(folder, 'path.txt'), 'utf8').trim());
    return version === wanted && existsSync(path) ? path : null;
  } catch {
    return null;
  }
}

/**
 * Fetches the runtime with the package's own installer, quietly. Never rejects and never waits for ever.
 * @param {string} root
 * @param {{ stalledMs?: number, longestMs?: number }} [patience]
 * @returns {Promise<boolean>} whether it is there now
 */
export async function fetchRuntime(root, { stalledMs = STALLED_MS, longestMs = LONGEST_MS } = {}) {
  const installer = join(root, 'node_modules', 'electron', 'install.js');
  if (!existsSync(installer)) return false;
  const loading = join(root, 'dist', '.runtime-download');
  try {
    rmSync(loading, { recursive: true, force: true });
    mkdirSync(loading, { recursive: true });
    await install(installer, loading, stalledMs, longestMs);
    rmSync(loading, { recursive: true, force: true });
  } catch {
    // A folder that this user may not write to: then the runtime cannot be put there either.
    return false;
  }
  return electronRuntime(root) !== null;
}

/**
 * Resolves when the installer has ended, by itself or because its download stood still.
 * @param {string} installer
 * @param {string} loading an empty folder
 * @param {number} stalledMs
 * @param {number} longestMs
 * @returns {Promise<void>}
 */
function install(installer, loading, stalledMs, longestMs) {
  // It puts what it loads into the folder for temporary files, where its growth can be seen.
  const env = { ...process.env, TMPDIR: loading, TEMP: loading, TMP: loading };
  const child = spawn(process.execPath, [installer], { env, stdio: 'ignore' });
  const end = () => child.kill('SIGKILL');
  process.on('exit', end);
  return new Promise((resolve) => {
    const began = Date.now();
    let grewAt = began;
    let size = 0;
    const timer = setInterval(() => {
      const now = Date.now();
      const loaded = sizeOf(loading);
      if (loaded !== size) [size, grewAt] = [loaded, now];
      if (now - grewAt > stalledMs || now - began > longestMs) end();
    }, LOOK_MS);
    const over = () => {
      clearInterval(timer);
      process.off('exit', end);
      resolve();
    };
    child.on('error', over);
    child.on('exit', over);
  });
}

/**
 * @param {string} path a file or folder, or one that has just gone
 * @returns {number} bytes
 */
function sizeOf(path) {
  try {
    const found = statSync(path);
    if (!found.isDirectory()) return found.size;
    return readdirSync(path).reduce((sum, name) => sum + sizeOf(join(path, name)), 0);
  } catch {
    return 0;
  }
}
