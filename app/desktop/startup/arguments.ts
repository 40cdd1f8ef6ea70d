/*
 * Reads the command line. Electron and the system add words of their own, and may start a second program only to hand
 * a file to the first. So nothing is refused here: words that are not ours are skipped.
 */

import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface StartArguments {
  /** Absolute; null for none. */
  readonly session: string | null;
  readonly lanes: string | null;
  /** The data folder; null for the system's own. */
  readonly data: string | null;
}

const OPTIONS = ['lanes', 'data'] as const;

/**
 * argv: as in `process.argv`. isDefaultApp: whether a bare Electron runs the program from its folder, which
 * then stands in front of the arguments. folder: what relative paths start from.
 */
export function startArguments(argv: readonly string[], isDefaultApp: boolean, folder: string): StartArguments {
  const words = argv.slice(isDefaultApp ? programAt(argv) + 1 : 1);
  const found: { session: string | null; lanes: string | null; data: string | null } = {
    session: null,
    lanes: null,
    data: null,
  };
  for (let index = 0; index < words.length; index++) {
    const word = words[index]!;
    const option = OPTIONS.find((name) => word === `--${name}` || word.startsWith(`--${name}=`));
    if (option) {
      const value = word.includes('=') ? word.slice(word.indexOf('=') + 1) : (words[++index] ?? '');
      if (value !== '') found[option] = resolve(folder, value);
    } else if (!word.startsWith('-')) found.session ??= pathOf(word, folder);
  }
  return found;
}

/** Linux desktops pass a file as a `file:` URL. null for a URL that names no file on this machine. */
function pathOf(word: string, folder: string): string | null {
  if (!/^file:/i.test(word)) return resolve(folder, word);
  try {
    return fileURLToPath(word);
  } catch {
    return null;
  }
}

/** Where the program's folder stands: Chromium's switches may come before it. */
function programAt(argv: readonly string[]): number {
  const at = argv.findIndex((word, index) => index > 0 && !word.startsWith('-'));
  return at < 0 ? argv.length : at;
}
