/*
 * Chooses the X server under Linux where there is one, because Wayland lets no program place its windows. Chromium
 * picks its display server before it runs any script, and listens only to its command line
 * (ElectronBrowserMainParts::PreEarlyInitialization; ui::SetOzonePlatformForLinuxIfNeeded). So a program that finds
 * itself on Wayland, with an X server beside it, starts itself once more with the switch.
 */

import type { SpawnOptions } from 'node:child_process';

const SWITCH = '--ozone-platform';

export interface StartedOn {
  readonly platform: NodeJS.Platform;
  /** As in `process.argv`. */
  readonly argv: readonly string[];
  /** What Chromium has chosen: its own switch says so once it has. */
  readonly chosen: string;
  /** Whether an X server can be spoken to. */
  readonly hasX: boolean;
}

/** The arguments for the second start; null where the program stays as it is. */
export function wordsForXServer({ platform, argv, chosen, hasX }: StartedOn): string[] | null {
  if (platform !== 'linux' || chosen !== 'wayland' || !hasX) return null;
  // Somebody has named one, or this is the second start.
  if (argv.some((word) => word === SWITCH || word.startsWith(`${SWITCH}=`))) return null;
  return [`${SWITCH}=x11`, ...argv.slice(1)];
}

/** What to start. An AppImage's files are unmounted when its process ends, so the image itself is started. */
export function executableOf({ env, execPath }: Pick<NodeJS.Process, 'env' | 'execPath'>): string {
  return env['APPIMAGE'] ?? execPath;
}

/** The second process outlives this one and prints to the same terminal. */
export const STARTED_APART: SpawnOptions = { detached: true, stdio: 'inherit' };

/** Whether the program can place its windows. */
export function placesWindows(platform: NodeJS.Platform, chosen: string): boolean {
  return platform !== 'linux' || chosen !== 'wayland';
}
