/*
 * A sound card and a screen that are not there: PulseAudio with one virtual loudspeaker, a virtual
 * display, and on it the browser with its sound on. All of its own, in a folder that goes again.
 */

import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type Browser } from 'playwright';
import { findBrowser } from '../../support/system/browser.ts';
import { virtualScreen } from '../virtual-screen.ts';
import { Recorder, RATE } from './recording.ts';

const PROGRAMS = ['pulseaudio', 'parec', 'pactl', 'Xvfb'];

const LOUDSPEAKER = `module-null-sink sink_name=pool rate=${RATE} channels=2`;

/** What is missing, in one line; null where all is there. */
export function missing(): string | null {
  const absent = PROGRAMS.filter((name) => spawnSync('which', [name]).status !== 0);
  if (findBrowser() === null) absent.push('chromium');
  if (absent.length === 0) return null;
  const packages = 'chromium pulseaudio pulseaudio-utils xvfb xauth';
  return `Missing: ${absent.join(', ')}. On Debian, as root: apt-get install --no-install-recommends ${packages}`;
}

export class Studio {
  readonly browser: Browser;
  private readonly folder: string;
  private readonly env: NodeJS.ProcessEnv;
  private readonly children: readonly ChildProcess[];

  private constructor(browser: Browser, folder: string, env: NodeJS.ProcessEnv, children: readonly ChildProcess[]) {
    this.browser = browser;
    this.folder = folder;
    this.env = env;
    this.children = children;
  }

  static async open(): Promise<Studio> {
    const folder = mkdtempSync(join(tmpdir(), 'lanecall-sound-'));
    const socket = join(folder, 'loudspeaker');
    const env = { ...process.env, XDG_RUNTIME_DIR: folder, PULSE_SERVER: `unix:${socket}`, HOME: folder };
    const door = `module-native-protocol-unix auth-anonymous=1 socket=${socket}`;
    const own = ['-n', '--daemonize=no', '--exit-idle-time=-1', '--use-pid-file=no', '--log-level=error'];
    const pulse = spawn('pulseaudio', [...own, '-L', LOUDSPEAKER, '-L', door], { env, stdio: 'ignore' });
    await until(() => existsSync(socket), 'PulseAudio does not come up');
    const { child: screen, display } = await virtualScreen();
    const browser = await chromium.launch({
      executablePath: findBrowser()!,
      headless: false,
      env: { ...env, DISPLAY: display } as Record<string, string>,
      ignoreDefaultArgs: ['--mute-audio'],
      args: ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
    });
    return new Studio(browser, folder, env, [pulse, screen]);
  }

  takeLoudspeaker(): void {
    this.control('unload-module', 'module-null-sink');
  }

  giveLoudspeaker(): void {
    this.control('load-module', ...LOUDSPEAKER.split(' '));
  }

  private control(...words: readonly string[]): void {
    const { status, stderr } = spawnSync('pactl', words, { env: this.env, encoding: 'utf8' });
    if (status !== 0) throw new Error(`pactl ${words.join(' ')}: ${stderr}`);
  }

  record(): Recorder {
    return new Recorder('pool.monitor', this.env);
  }

  async close(): Promise<void> {
    await this.browser.close();
    for (const child of this.children) {
      const gone = once(child, 'exit');
      child.kill('SIGTERM');
      await gone;
    }
    rmSync(this.folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

async function until(is: () => boolean, otherwise: string): Promise<void> {
  for (let tries = 0; !is(); tries++) {
    if (tries > 100) throw new Error(otherwise);
    await pause(100);
  }
}
