/*
 * `npm start`: the desktop program where it can be opened; else one line why not, and the same program
 * served, in the system's own browser where there is one.
 */

import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { complain, type Io } from '../io.ts';
import { serve } from '../serve.ts';
import { firstLine, runDesktop, type Opening } from './desktop.ts';
import { electronRuntime, fetchRuntime } from './electron-runtime.ts';
import { openInBrowser } from './system-browser.ts';

/** The exit status, once the program has ended. root: the clone's folder; args: what stands after `npm start --`. */
export async function start(root: string, args: string[], io: Io): Promise<number> {
  const { positionals, values } = readArguments(args);
  // Too many sessions are for `serve` to find, as all faults are.
  if (values['help'] !== true && positionals.length <= 1) {
    const opening = await openDesktop(root, args, io);
    if ('ended' in opening) return opening.ended;
    const { why, remedy = [] } = opening;
    await complain(io, `${why}; serving the same program to browsers instead${remedy.length > 0 ? ':' : '.'}`);
    for (const command of remedy) await complain(io, `  ${command}`);
  }
  return serve(serveArguments(root, args), io, openInBrowser);
}

async function openDesktop(root: string, args: string[], io: Io): Promise<Opening> {
  const why = whyNotDesktop(args, { platform: process.platform, env: process.env, uid: process.getuid?.() });
  if (why !== null) return { why };
  try {
    const runtime = electronRuntime(root) ?? (await fetchRuntime(root, (line) => void complain(io, line)));
    return await runDesktop(runtime, [...engineWords(process), root, ...args], io.cwd);
  } catch (error) {
    const reason = firstLine(error instanceof Error ? error.message : String(error));
    return { why: `The Electron runtime is not here and could not be fetched (${reason})` };
  }
}

/**
 * What stands before the program on Electron's command line. Under Wayland alone windows cannot be placed, and it is
 * only there that Chromium hears of another display server in time (see display-server.ts of the desktop program).
 */
export function engineWords({ platform, env }: Pick<NodeJS.Process, 'platform' | 'env'>): string[] {
  return platform === 'linux' && env['DISPLAY'] ? ['--ozone-platform=x11'] : [];
}

/** A sentence without its full stop; null where the desktop program can be tried. */
export function whyNotDesktop(
  args: string[],
  { platform, env, uid }: { platform: NodeJS.Platform; env: NodeJS.ProcessEnv; uid: number | undefined },
): string | null {
  const { values, positionals } = readArguments(args);
  if (values['port'] !== undefined || values['share'] === true) return '--port and --share are for serving';
  if (positionals[0] === '-') return 'A session from standard input is for serving';
  if (platform === 'linux' && !env['DISPLAY'] && !env['WAYLAND_DISPLAY']) return 'There is no display here';
  const isFarAway = env['SSH_CONNECTION'] !== undefined && !env['DISPLAY'];
  if ((env['CI'] ?? '') !== '' || isFarAway) return 'There is nobody at a display here';
  if (platform === 'linux' && uid === 0) return 'The desktop program does not run as root';
  return null;
}

/** A session with faults goes into the coach's editor; where none is named the sample is opened. */
export function serveArguments(root: string, args: string[]): string[] {
  const { positionals, values } = readArguments(args);
  if (values['help'] === true) return args;
  const sample = join(root, 'assets', 'harbour-thursday.txt');
  return [...(positionals.length > 0 ? ['--draft'] : ['--sample', sample]), ...args];
}

function readArguments(args: string[]) {
  const [value, flag] = [{ type: 'string' }, { type: 'boolean' }] as const;
  const options = { lanes: value, port: value, data: value, share: flag, help: flag };
  return parseArgs({ args, strict: false, allowPositionals: true, options });
}
