/*
 * The Chromium behind the stand-in's windows: one process with a debugging port, which the stand-in and the
 * test library both speak to.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { chromium, type Browser, type BrowserContext, type CDPSession, type Page } from 'playwright';
import { browserPath } from '../system/browser.ts';

const SWITCHES = [
  '--headless=new',
  '--no-sandbox',
  '--remote-debugging-port=0',
  '--remote-debugging-pipe',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // As Electron's own defaults and the windows' backgroundThrottling: false have it.
  '--autoplay-policy=no-user-gesture-required',
  '--disable-background-timer-throttling',
  '--disable-backgrounding-occluded-windows',
  '--disable-renderer-backgrounding',
];

export class Engine {
  readonly context: BrowserContext;
  /** For whoever drives the program from outside. */
  readonly address: string;
  private readonly child: ChildProcess;
  private readonly session: CDPSession;
  private readonly profile: string;
  /** Windows are made one after the other, so that each knows its own page. */
  private making: Promise<unknown> = Promise.resolve();

  private constructor(child: ChildProcess, address: string, browser: Browser, session: CDPSession, profile: string) {
    this.child = child;
    this.address = address;
    this.context = browser.contexts()[0]!;
    this.session = session;
    this.profile = profile;
  }

  /** folder: for files of the browser, which are gone with it. */
  static async start(folder: string): Promise<Engine> {
    const profile = join(folder, `stand-in-${process.pid}`);
    mkdirSync(profile, { recursive: true });
    const child = spawn(browserPath(), [...SWITCHES, `--user-data-dir=${profile}`, 'about:blank'], {
      // When the pipe ends, because this process has, the browser ends itself.
      stdio: ['ignore', 'ignore', 'pipe', 'pipe', 'pipe'],
      detached: process.platform !== 'win32',
    });
    const address = await addressIn(child);
    const browser = await chromium.connectOverCDP(address);
    const engine = new Engine(child, address, browser, await browser.newBrowserCDPSession(), profile);
    // The browser begins with a window of its own, which no program of Electron's has.
    for (const page of engine.context.pages()) await page.close();
    return engine;
  }

  /** A new window with an empty page, and the name of its target. */
  newPage(width: number, height: number): Promise<{ readonly page: Page; readonly target: string }> {
    const made = this.making.then(async () => {
      const coming = this.context.waitForEvent('page');
      const { targetId } = await this.session.send('Target.createTarget', {
        url: 'about:blank',
        newWindow: true,
        width,
        height,
      });
      return { page: await coming, target: targetId };
    });
    this.making = made.catch(() => undefined);
    return made;
  }

  async closePage(target: string): Promise<void> {
    await this.session.send('Target.closeTarget', { targetId: target }).catch(() => undefined);
  }

  /** At once, with all its processes. */
  kill(): void {
    const { pid } = this.child;
    if (pid === undefined) return;
    try {
      if (process.platform === 'win32') this.child.kill();
      else process.kill(-pid, 'SIGKILL');
    } catch {
      // It has ended by itself.
    }
    // Its processes may still be writing for a moment.
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 50 });
  }
}

function addressIn(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('exit', (status) => reject(new Error(`Chromium has ended with ${status}`)));
    const lines = createInterface({ input: child.stderr! });
    lines.on('line', (line) => {
      const [, address] = /^DevTools listening on (ws:\/\/.*)$/.exec(line) ?? [];
      if (address) resolve(address);
    });
  });
}
