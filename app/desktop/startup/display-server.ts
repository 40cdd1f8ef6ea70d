/*
 * Which display server the program speaks to under Linux. Wayland lets no program say where its windows go;
 * where an X server stands beside it, the program goes through that. Chromium chooses before it runs any
 * script, and heeds only what its command line says by then (ElectronBrowserMainParts::PreEarlyInitialization;
 * ui::SetOzonePlatformForLinuxIfNeeded), so a program that was started without a word about it starts once more.
 */

import type { SpawnOptions } from 'node:child_process';

const SWITCH = '--ozone-platform';

export interface StartedOn {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** As in `process.argv`. */
  readonly argv: readonly string[];
  /** What Chromium has chosen: its own switch says so once it has. */
  readonly chosen: string;
}

/** The words to start the program with once more; null where it is well as it is. */
export function wordsForXServer({ platform, env, argv, chosen }: StartedOn): string[] | null {
  if (platform !== 'linux' || chosen !== 'wayland' || !env['DISPLAY']) return null;
  // Whoever has said which one gets it; and once is enough.
  if (argv.some((word) => word === SWITCH || word.startsWith(`${SWITCH}=`))) return null;
  return [`${SWITCH}=x11`, ...argv.slice(1)];
}

/** What to start: an AppImage's own files go away with the process that runs from them. */
export function executableOf({ env, execPath }: Pick<NodeJS.Process, 'env' | 'execPath'>): string {
  return env['APPIMAGE'] ?? execPath;
}

/** The new process outlives this one, and says what it has to say in the same place. */
export const STARTED_APART: SpawnOptions = { detached: true, stdio: 'inherit' };

/** Whether windows go where they are put. */
export function placesWindows(platform: NodeJS.Platform, chosen: string): boolean {
  return platform !== 'linux' || chosen !== 'wayland';
}
