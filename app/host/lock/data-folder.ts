/*
 * The folder for what must outlive the program, unless another folder is asked for.
 */

import { isAbsolute, join } from 'node:path';

export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** The user's own folder. */
  readonly home: string;
}

/** Our folder in the system's place for the user's program data; it may not exist yet. Source: XDG base directories, 0.8. */
export function dataFolder({ platform, env, home }: Machine): string {
  // The standard says to ignore a relative path in it.
  const given = env['XDG_DATA_HOME'];
  if (given !== undefined && isAbsolute(given)) return join(given, 'lanecall');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'lanecall');
  if (platform === 'win32') return join(env['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'), 'lanecall');
  return join(home, '.local', 'share', 'lanecall');
}

/** The folder of the journals in a data folder. */
export function runsFolder(folder: string): string {
  return join(folder, 'runs');
}
