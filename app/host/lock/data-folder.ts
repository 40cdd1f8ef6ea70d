/*
 * Where what must outlive the program is kept, unless another place is asked for.
 */

import { isAbsolute, join } from 'node:path';

export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** The user's own folder. */
  readonly home: string;
}

/** The folder for programs' data that the system has for its user; it need not be there yet. Sources: XDG base directories, 0.8. */
export function dataFolder({ platform, env, home }: Machine): string {
  // Relative paths in it are to be ignored, says the standard.
  const given = env['XDG_DATA_HOME'];
  if (given !== undefined && isAbsolute(given)) return join(given, 'lanecall');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'lanecall');
  if (platform === 'win32') return join(env['LOCALAPPDATA'] ?? join(home, 'AppData', 'Local'), 'lanecall');
  return join(home, '.local', 'share', 'lanecall');
}

/** The journals, in a data folder. */
export function runsFolder(folder: string): string {
  return join(folder, 'runs');
}
