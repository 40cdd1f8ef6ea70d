/*
 * Opens the served page in the system's own browser, where there is one and somebody to look at it.
 * A convenience: the address is printed in any case, so nothing here is ever reported as a failure.
 */

import { spawn } from 'node:child_process';

/**
 * Passes what the server prints on to standard output and opens the first address in it.
 * @param {import('node:stream').Readable | null} printed
 */
export function openWhenServed(printed) {
  let seen = '';
  let opened = false;
  printed?.on('data', (/** @type {Buffer} */ chunk) => {
    process.stdout.write(chunk);
    if (opened) return;
    seen += chunk.toString('utf8');
    const address = firstAddress(seen);
    if (address === null) return;
    opened = true;
    openInBrowser(address);
  });
}

/**
 * @param {string} text what was printed so far
 * @returns {string | null} null while no line with an address is complete
 */
export function firstAddress(text) {
  return /(https?:\/\/[^\s"'<>]+)[^\n]*\n/.exec(text)?.[1] ?? null;
}

/**
 * @param {NodeJS.Platform} platform
 * @param {NodeJS.ProcessEnv} env
 * @returns {[string, ...string[]] | null} the command that opens an address put after it; null where nobody would see it
 */
export function browserCommand(platform, env) {
  if ((env['CI'] ?? '') !== '' || env['SSH_CONNECTION'] !== undefined) return null;
  if (platform === 'darwin') return ['open'];
  // The empty word is the window's title: start would take a quoted address for one.
  if (platform === 'win32') return ['cmd', '/c', 'start', ''];
  return env['DISPLAY'] || env['WAYLAND_DISPLAY'] ? ['xdg-open'] : null;
}

/** @param {string} address */
function openInBrowser(address) {
  const command = browserCommand(process.platform, process.env);
  if (command === null) return;
  const [name, ...args] = command;
  const child = spawn(name, [...args, address], { stdio: 'ignore', detached: true });
  // No such program: the coach opens the printed address.
  child.on('error', () => undefined);
  child.unref();
}
