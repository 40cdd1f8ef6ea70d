/*
 * Starts the desktop program and waits for its first window. Whatever goes wrong until then is told in one line, and
 * the wait has an end.
 */

import { spawn } from 'node:child_process';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { standIn } from '../launcher/child-process.mjs';

/** `ended` is its exit status. */
export type Opening = { readonly ended: Promise<number> } | NotOpened;

export interface NotOpened {
  /** A sentence without its full stop. */
  readonly why: string;
  /** Two commands that mend it, where they are known. */
  readonly remedy?: readonly string[];
}

// The desktop program prints this when its first window has been painted.
const OPEN = 'Lanecall is open.';
const MOST_WORDS = 16_384;
// Enough for the first start on a slow machine.
const PATIENCE_MS = 45_000;

/** words: its arguments. */
export async function runDesktop(
  runtime: string,
  words: readonly string[],
  folder: string,
  patienceMs = PATIENCE_MS,
): Promise<Opening> {
  const env = { ...process.env };
  // An editor that is built on Electron passes this on to what is started in its terminal.
  delete env['ELECTRON_RUN_AS_NODE'];
  const child = spawn(runtime, words, { cwd: folder, env, stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  // The end of it tells most: Chromium prints a FATAL line just before it dies.
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
    // Its own child processes may hold the pipes open.
    child.stdout.destroy();
    child.stderr.destroy();
  }
  await ended;
  const remedy = sandboxRemedy(runtime, said);
  if (remedy) return { why: NO_SANDBOX, remedy };
  const line = firstLine(said);
  const reason =
    first === 'late'
      ? `no window could be seen after ${Math.round(patienceMs / 1000)} s${line === null ? '' : `: ${line}`}`
      : (line ?? `it ended with ${first}`);
  return { why: `The desktop program could not be opened (${reason})` };
}

const NO_SANDBOX = 'This system does not let the desktop program make its own sandbox';

/**
 * Ubuntu 24.04 and others do not let programs make a sandbox (AppArmor restricts user namespaces). The helper beside
 * the runtime may make one, once root owns it (sandbox/linux/suid/client/setuid_sandbox_host.cc,
 * electron/electron#42510). null where the program died of something else.
 */
function sandboxRemedy(runtime: string, said: string): string[] | null {
  if (!/The SUID sandbox helper binary was found, but|No usable sandbox!/.test(said)) return null;
  const helper = `"${join(dirname(runtime), 'chrome-sandbox')}"`;
  return [`sudo chown root:root ${helper}`, `sudo chmod 4755 ${helper}`];
}

/** The first line for people in what a program has printed, cut to fit one line; null where there is none. */
export function firstLine(text: string): string | null {
  // A FATAL line comes after others about things that the program could do without.
  const all = text.split('\n');
  const lines = [...all.filter(isFatal), ...all].map((line) => line.replace(/^\[[^\]]*\]\s*|^\w*Error: /, '').trim());
  const line = lines.find((each) => each !== '' && !/^(at |Debugger |For help|DevTools )/.test(each));
  return line === undefined ? null : line.replace(/[.;]+$/, '').slice(0, 160);
}

/** As Chromium writes it: `[process:thread:date:FATAL:file:line] words`. */
function isFatal(line: string): boolean {
  return /^\[[^\]]*:FATAL:/.test(line);
}
