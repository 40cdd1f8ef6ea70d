/*
 * Opens the desktop program, where there is a display for it and a runtime, or says in one line why not.
 * Nothing that goes wrong before its first window is there is ever more than that line.
 */

import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { ended } from './child-process.mjs';
import { electronRuntime, fetchRuntime } from './electron-runtime.mjs';
import { readStartArguments } from './start.mjs';

/** @typedef {{ platform: NodeJS.Platform, env: NodeJS.ProcessEnv, uid: number | undefined }} Machine */
/** @typedef {{ opened: true, ended: Promise<number> } | { opened: false, why: string | null }} Opening */

// The desktop program prints this when its first page is there.
const OPEN = 'Lanecall is open.';
// A slow machine on its first start; one that takes longer will not open at all.
const PATIENCE_MS = 45_000;

/**
 * @param {string} root the clone's folder
 * @param {string[]} args a session and the options of `serve`
 * @param {string} folder what relative paths start from
 * @param {(line: string) => void} say
 * @returns {Promise<Opening>} `why` is a sentence without its full stop, null where the arguments are for `serve` to answer
 */
export async function openDesktop(root, args, folder, say) {
  const { values, positionals } = readStartArguments(args);
  if (values['help'] === true || positionals.length > 1) return { opened: false, why: null };
  const why = whyNotDesktop(args, { platform: process.platform, env: process.env, uid: process.getuid?.() });
  if (why !== null) return { opened: false, why };
  if (electronRuntime(root) === null) {
    say('Fetching the Electron runtime for the desktop program (about 120 MB, once).');
    await fetchRuntime(root);
  }
  const runtime = electronRuntime(root);
  if (runtime === null) return { opened: false, why: 'The Electron runtime is not here and could not be fetched' };
  return runDesktop(runtime, [root, ...args], folder);
}

/**
 * @param {string[]} args
 * @param {Machine} machine
 * @returns {string | null} null where the desktop program can be tried
 */
export function whyNotDesktop(args, { platform, env, uid }) {
  const { values, positionals } = readStartArguments(args);
  if (values['port'] !== undefined || values['share'] === true) return '--port and --share are for serving';
  if (positionals[0] === '-') return 'A session from standard input is for serving';
  if (platform === 'linux' && !env['DISPLAY'] && !env['WAYLAND_DISPLAY']) return 'There is no display here';
  const isFarAway = env['SSH_CONNECTION'] !== undefined && !env['DISPLAY'];
  if ((env['CI'] ?? '') !== '' || isFarAway) return 'There is nobody at a display here';
  if (platform === 'linux' && uid === 0) return 'The desktop program does not run as root';
  return null;
}

/**
 * @param {string} runtime
 * @param {string[]} words its arguments
 * @param {string} folder
 * @param {number} [patienceMs]
 * @returns {Promise<Opening>}
 */
export async function runDesktop(runtime, words, folder, patienceMs = PATIENCE_MS) {
  const env = { ...process.env };
  // Editors that are Electron programs themselves hand this on to what is started in them.
  delete env['ELECTRON_RUN_AS_NODE'];
  const child = spawn(runtime, words, { cwd: folder, env, stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  child.stderr.on('data', (/** @type {Buffer} */ chunk) => {
    if (said.length < 4000) said += chunk.toString('utf8');
  });
  const over = ended(child).catch((/** @type {Error} */ error) => {
    said ||= error.message;
    return 1;
  });
  /** @type {Promise<'open'>} */
  const open = new Promise((resolve) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      if (line === OPEN) resolve('open');
    });
  });
  /** @type {NodeJS.Timeout | undefined} */
  let timer;
  /** @type {Promise<'late'>} */
  const late = new Promise((resolve) => (timer = setTimeout(() => resolve('late'), patienceMs)));
  const first = await Promise.race([open, over, late]);
  clearTimeout(timer);
  if (first === 'open') return { opened: true, ended: over };
  // A second start has handed its file to the program that is open already.
  if (first === 0) return { opened: true, ended: over };
  if (first === 'late') {
    child.kill('SIGKILL');
    // Processes of its own may hold its pipes open.
    child.stdout.destroy();
    child.stderr.destroy();
  }
  await over;
  const reason = first === 'late' ? 'it did not open in time' : (firstLine(said) ?? `it ended with ${first}`);
  return { opened: false, why: `The desktop program could not be opened (${reason})` };
}

/**
 * @param {string} text what a program has printed
 * @returns {string | null} its first words for people, short enough for a line
 */
function firstLine(text) {
  const lines = text.split('\n').map((line) => line.replace(/^\[[^\]]*\]\s*/, '').trim());
  const [line] = lines.filter((each) => each !== '' && !/^(at |Debugger |For help|DevTools )/.test(each));
  return line === undefined ? null : line.replace(/[.;]+$/, '').slice(0, 160);
}
