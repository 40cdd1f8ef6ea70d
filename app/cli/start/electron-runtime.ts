/*
 * The Electron runtime that the desktop program runs on. Its package comes with the others; the runtime
 * itself is fetched once, when it is first wanted, by the package's own installer.
 */

import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ended } from '../launcher/child-process.mjs';
import { firstLine } from './desktop.ts';
import { withLock } from '../launcher/lock.mjs';

const EXECUTABLES: Partial<Record<NodeJS.Platform, string>> = {
  darwin: 'Electron.app/Contents/MacOS/Electron',
  win32: 'electron.exe',
};

/**
 * The path of the runtime's executable, null where it is not there. ELECTRON_OVERRIDE_DIST_PATH may name a folder
 * with one.
 */
export function electronRuntime(
  root: string,
  { env, platform }: Pick<NodeJS.Process, 'env' | 'platform'> = process,
): string | null {
  const named = env['ELECTRON_OVERRIDE_DIST_PATH'] ?? '';
  const folder = join(root, 'node_modules', 'electron');
  // The installer writes path.txt last, and npm removes the whole folder before it puts another version there.
  if (named === '' && !existsSync(join(folder, 'path.txt'))) return null;
  const path = join(named || join(folder, 'dist'), EXECUTABLES[platform] ?? 'electron');
  return existsSync(path) ? path : null;
}

/** The path of the executable; rejects with the reason where it cannot be had. */
export async function fetchRuntime(root: string, say: (line: string) => void, env = process.env): Promise<string> {
  const named = env['ELECTRON_OVERRIDE_DIST_PATH'] ?? '';
  if (named !== '') throw new Error(`ELECTRON_OVERRIDE_DIST_PATH names no runtime: ${named}`);
  return withLock(root, say, async () => {
    // Another start may have fetched it while this one waited.
    const there = electronRuntime(root);
    if (there !== null) return there;
    say('Fetching the Electron runtime for the desktop program (about 120 MB, once).');
    const said = await install(root, env);
    const fetched = electronRuntime(root);
    if (fetched === null) throw new Error(firstLine(said) ?? 'its installer gave no reason');
    return fetched;
  });
}

/** Resolves with what the installer printed of errors. */
async function install(root: string, given: NodeJS.ProcessEnv): Promise<string> {
  const network = pathToFileURL(join(root, 'app', 'cli', 'start', 'download-network.mjs')).href;
  const words = ['--import', network, join(root, 'node_modules', 'electron', 'install.js')];
  const env: NodeJS.ProcessEnv = { ...given, NODE_NO_WARNINGS: '1' };
  // It would make the downloader replace the network that was loaded before it.
  delete env['ELECTRON_GET_USE_PROXY'];
  const child = spawn(process.execPath, words, { env, stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  child.stderr.on('data', (chunk: Buffer) => (said += chunk.toString('utf8')));
  await ended(child);
  return said;
}
