/*
 * Opens the served page in the system's own browser, where there is one and somebody to look at it.
 * A convenience: the address is printed in any case, so nothing here is ever reported as a failure.
 */

import { spawn } from 'node:child_process';

export function openInBrowser(address: string): void {
  const [name, ...args] = browserCommand(process.platform, process.env) ?? [];
  if (name === undefined) return;
  const child = spawn(name, [...args, address], { stdio: 'ignore', detached: true });
  // No such program: the coach opens the printed address.
  child.on('error', () => undefined);
  child.unref();
}

/** The command that opens an address put after it; null where nobody would see it. */
export function browserCommand(platform: NodeJS.Platform, env: NodeJS.ProcessEnv): string[] | null {
  if ((env['CI'] ?? '') !== '' || env['SSH_CONNECTION'] !== undefined) return null;
  if (platform === 'darwin') return ['open'];
  // The empty word is the window's title: start would take a quoted address for one.
  if (platform === 'win32') return ['cmd', '/c', 'start', ''];
  return env['DISPLAY'] || env['WAYLAND_DISPLAY'] ? ['xdg-open'] : null;
}
