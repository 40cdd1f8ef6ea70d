/*
 * Runs the desktop program. Nothing that goes wrong before its first window is there is ever more than one
 * line, or a wait without end.
 */

import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { standIn } from './child-process.mjs';

/** `ended` is its exit status; `why` it is not open is a sentence without its full stop. */
export type Opening = { readonly ended: Promise<number> } | { readonly why: string };

// The desktop program prints this when its first page is there.
const OPEN = 'Lanecall is open.';
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
  child.stderr.on('data', (chunk: Buffer) => {
    if (said.length < 4000) said += chunk.toString('utf8');
  });
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
  const reason = first === 'late' ? 'it did not open in time' : (firstLine(said) ?? `it ended with ${first}`);
  return { why: `The desktop program could not be opened (${reason})` };
}

/** The first words for people in what a program has printed, short enough for a line; null where there are none. */
export function firstLine(text: string): string | null {
  const lines = text.split('\n').map((line) => line.replace(/^\[[^\]]*\]\s*|^\w*Error: /, '').trim());
  const line = lines.find((each) => each !== '' && !/^(at |Debugger |For help|DevTools )/.test(each));
  return line === undefined ? null : line.replace(/[.;]+$/, '').slice(0, 160);
}
