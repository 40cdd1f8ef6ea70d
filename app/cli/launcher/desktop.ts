/*
 * Runs the desktop program. Nothing that goes wrong before its first window is there is ever more than one
 * line, or a wait without end.
 */

import { spawn } from 'node:child_process';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { standIn } from './child-process.mjs';

/** `ended` is its exit status. */
export type Opening = { readonly ended: Promise<number> } | NotOpened;

export interface NotOpened {
  /** A sentence without its full stop. */
  readonly why: string;
  /** Commands that mend it, where they are known. */
  readonly remedy?: readonly string[];
}

// The desktop program prints this when its first window has been painted.
const OPEN = 'Lanecall is open.';
const MOST_WORDS = 16_384;
// A slow machine on its first start; one that takes longer will not open at all.
const PATIENCE_MS = 45_000;

/** words: its arguments. */
export async function runDesktop(
  runtime: string,
  words: readonly string[],
  folder: string,
  patienceMs = PATIENCE_MS,
): Promise<Opening> {
  const env = { ...process.env };
  // Editors that are Electron programs themselves hand this on to what is started in them.
  delete env['ELECTRON_RUN_AS_NODE'];
  const child = spawn(runtime, words, { cwd: folder, env, stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  // The last words tell most: it is with a FATAL one that Chromium ends.
  child.stderr.on('data', (chunk: Buffer) => (said = (said + chunk.toString('utf8')).slice(-MOST_WORDS)));
  const ended = standIn(child).catch((error: Error) => {
    said ||= error.message;
    return 1;
  });
  const first = await new Promise<number | 'open' | 'late'>((resolve) => {
    createInterface({ input: child.stdout }).on('line', (line) => line === OPEN && resolve('open'));
    const timer = setTimeout(() => resolve('late'), patienceMs);
    void ended.then(resolve).finally(() => clearTimeout(timer));
  });
  // 0: it has handed its file to a program that is open already.
  if (first === 'open' || first === 0) return { ended };
  if (first === 'late') {
    child.kill('SIGKILL');
    // Processes of its own may hold its pipes open.
    child.stdout.destroy();
    child.stderr.destroy();
  }
  await ended;
  const remedy = sandboxRemedy(runtime, said);
  if (remedy) return { why: NO_SANDBOX, remedy };
  const line = firstLine(said);
  const reason =
    first === 'late'
      ? `nothing was to be seen of it for ${Math.round(patienceMs / 1000)} s${line === null ? '' : `: ${line}`}`
      : (line ?? `it ended with ${first}`);
  return { why: `The desktop program could not be opened (${reason})` };
}

const NO_SANDBOX = 'This system does not let the desktop program make its own sandbox; these two lines allow it';

/**
 * Ubuntu 24.04 and others keep programs from making one (AppArmor's restriction of user namespaces); the helper
 * beside the runtime may, once it is root's (sandbox/linux/suid/client/setuid_sandbox_host.cc, electron/electron#42510).
 * null where that was not what it died of.
 */
function sandboxRemedy(runtime: string, said: string): string[] | null {
  if (!/The SUID sandbox helper binary was found, but|No usable sandbox!/.test(said)) return null;
  const helper = `"${join(dirname(runtime), 'chrome-sandbox')}"`;
  return [`sudo chown root:root ${helper}`, `sudo chmod 4755 ${helper}`];
}

/** The first words for people in what a program has printed, short enough for a line; null where there are none. */
export function firstLine(text: string): string | null {
  // What it died of is said after what it did without.
  const all = text.split('\n');
  const lines = [...all.filter(isFatal), ...all].map((line) => line.replace(/^\[[^\]]*\]\s*|^\w*Error: /, '').trim());
  const line = lines.find((each) => each !== '' && !/^(at |Debugger |For help|DevTools )/.test(each));
  return line === undefined ? null : line.replace(/[.;]+$/, '').slice(0, 160);
}

/** As Chromium writes it: `[process:thread:date:FATAL:file:line] words`. */
function isFatal(line: string): boolean {
  return /^\[[^\]]*:FATAL:/.test(line);
}
