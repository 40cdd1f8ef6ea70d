/*
 * `npm start`: the desktop program where it can be opened; else one line why not, and the same program
 * served, in the system's own browser where there is one.
 */

import { parseArgs } from 'node:util';
import { hasXServer } from '../../host/x-server.ts';
import { complain, type Io } from '../io.ts';
import { serve } from '../serve.ts';
import { firstLine, runDesktop, type Opening } from './desktop.ts';
import { electronRuntime, fetchRuntime } from './electron-runtime.ts';
import { openInBrowser } from './system-browser.ts';

/** The exit status, once the program has ended. root: the clone's folder; args: what stands after `npm start --`. */
export async function start(root: string, args: string[], io: Io): Promise<number> {
  const { positionals, values } = readArguments(args);
  // `serve` reports every fault in the arguments, too many sessions among them.
  if (values['help'] !== true && positionals.length <= 1) {
    const opening = await openDesktop(root, args, io);
    if ('ended' in opening) return opening.ended;
    const { why, remedy } = opening;
    await complain(io, `${why}; serving the same program to browsers instead.`);
    if (remedy) await complain(io, `These two commands allow it:\n  ${remedy.join('\n  ')}`);
  }
  return serve(serveArguments(args), io, { served: openInBrowser });
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
 * Chromium's switches, which stand before the program's folder. Wayland lets no program place its windows, so an X server
 * is taken where there is one; only this early does Chromium listen (see display-server.ts of the desktop program).
 */
export function engineWords(
  { platform, env }: Pick<NodeJS.Process, 'platform' | 'env'>,
  hasX = hasXServer(env),
): string[] {
  if (platform !== 'linux') return [];
  if (hasX) return ['--ozone-platform=x11'];
  // Else Chromium might take a variable that names no server for one.
  return env['WAYLAND_DISPLAY'] ? ['--ozone-platform=wayland'] : [];
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

/** A session with faults goes into the coach's editor; where none is named that is what opens. */
export function serveArguments(args: string[]): string[] {
  const { positionals, values } = readArguments(args);
  return positionals.length > 0 && values['help'] !== true ? ['--draft', ...args] : args;
}

function readArguments(args: string[]) {
  const [value, flag] = [{ type: 'string' }, { type: 'boolean' }] as const;
  const options = { lanes: value, port: value, data: value, share: flag, help: flag };
  return parseArgs({ args, strict: false, allowPositionals: true, options });
}
