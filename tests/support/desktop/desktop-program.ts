/*
 * The desktop program under test: started as its user would, on Electron's runtime or on the stand-in, and
 * looked at from outside through the test library's own door to Electron.
 */

import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { _electron, type ElectronApplication, type Page } from 'playwright';
import { electronRuntime } from '../../../app/cli/start/electron-runtime.ts';
import { engineWords } from '../../../app/cli/start/start.ts';
import { DISPLAYS } from '../electron-stand-in/system/displays-at-first.ts';
import type { StandInDisplay } from '../electron-stand-in/system/system.ts';

export const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
export const STAND_IN = fileURLToPath(new URL('../electron-stand-in/launch.mjs', import.meta.url));

/** null on machines without it, or without a display to show it on. */
export const RUNTIME = hasDisplay(process) ? electronRuntime(ROOT) : null;

/** What the program can be run on here, by name. */
export const ENGINES: readonly { readonly name: string; readonly path: string }[] = [
  { name: 'the stand-in', path: STAND_IN },
  ...(RUNTIME === null ? [] : [{ name: 'Electron', path: RUNTIME }]),
];

export const LAPTOP: StandInDisplay = display(1, 'Built-in', true, 0, 1280, 800);
export const TELEVISION: StandInDisplay = display(2, 'Pool TV', false, 1280, 1920, 1080);

/** In ms. */
const PATIENCE = 15_000;

export interface WindowSight {
  readonly url: string;
  readonly full: boolean;
  readonly bounds: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

export class DesktopProgram {
  readonly app: ElectronApplication;
  /** Known from the start: the test library forgets it with the program. */
  readonly child: ChildProcess;
  /** Errors of any page, and what a policy of theirs refused. */
  readonly complaints: string[] = [];
  /** What any page asked for. */
  readonly requests: string[] = [];

  private constructor(app: ElectronApplication) {
    this.app = app;
    this.child = app.process();
    app.context().on('request', (request) => this.requests.push(request.url()));
    const watch = (page: Page): void => {
      page.on('console', (message) => {
        if (message.type() === 'error') this.complaints.push(message.text());
      });
      page.on('pageerror', (error) => this.complaints.push(error.message));
    };
    app.windows().forEach(watch);
    app.on('window', watch);
  }

  /** words: what stands behind the program on its command line; place: its folder. */
  static async start(
    engine: string,
    words: readonly string[],
    displays: readonly StandInDisplay[],
    place: string = ROOT,
  ): Promise<DesktopProgram> {
    const app = await _electron.launch({
      executablePath: engine,
      args: [...engineWords(process), place, ...words],
      env: { ...process.env, [DISPLAYS]: JSON.stringify(displays) } as Record<string, string>,
    });
    const program = new DesktopProgram(app);
    if (engine !== STAND_IN) await program.plug(displays);
    return program;
  }

  /** On the machine's own displays, shut in as at home, and started as the launcher would. */
  static async asItIs(engine: string, words: readonly string[]): Promise<DesktopProgram> {
    const app = await _electron.launch({
      executablePath: engine,
      args: [...engineWords(process), ROOT, ...words],
      chromiumSandbox: true,
    });
    return new DesktopProgram(app);
  }

  /** A second one on the same data; its exit status. */
  static async startSecond(engine: string, words: readonly string[]): Promise<number | null> {
    const child = spawn(engine, [...engineWords(process), ROOT, ...words], { stdio: 'ignore' });
    const [status] = (await once(child, 'exit')) as [number | null];
    return status;
  }

  /** In good order, and without being asked whether a run may be left. */
  async close(): Promise<void> {
    await this.ended('SIGTERM');
  }

  /** As a machine that loses its power. */
  async kill(): Promise<void> {
    await this.ended('SIGKILL');
  }

  private async ended(signal: NodeJS.Signals): Promise<void> {
    const { child } = this;
    if (child.exitCode !== null || child.signalCode !== null) return;
    const gone = once(child, 'exit');
    child.kill(signal);
    await gone;
  }

  /** The window that shows a path now, once it has something to show. */
  async page(path: '/' | '/display'): Promise<Page> {
    const shows = (page: Page): boolean => !page.isClosed() && new URL(page.url()).pathname === path;
    const deadline = Date.now() + PATIENCE;
    for (;;) {
      // The last made: one that has died may still be on its way out.
      const last = this.app.windows().filter(shows).pop();
      if (last) return last;
      if (Date.now() > deadline) throw new Error(`No window shows ${path}.`);
      await pause(50);
    }
  }

  /** What the main process knows of its windows; the coach's first. */
  async windows(): Promise<readonly WindowSight[]> {
    const all = await this.app.evaluate(({ BrowserWindow }) =>
      BrowserWindow.getAllWindows().map((window) => ({
        url: window.webContents.getURL(),
        // The one of macOS that is used there is the simple one.
        full: window.isFullScreen() || (process.platform === 'darwin' && window.isSimpleFullScreen()),
        bounds: window.getBounds(),
      })),
    );
    return all.sort((a, b) => a.url.length - b.url.length);
  }

  async wall(): Promise<WindowSight | undefined> {
    return (await this.windows()).find(({ url }) => url.includes('display'));
  }

  /** From now on there are these displays; the program hears of a change. */
  plug(displays: readonly StandInDisplay[]): Promise<void> {
    return this.app.evaluate(({ screen }, now) => {
      const full = now.map((each) => ({ ...each, workArea: each.bounds, scaleFactor: 1, rotation: 0 }));
      const all = full as unknown as ReturnType<typeof screen.getAllDisplays>;
      const shared = ({ bounds: a }: (typeof all)[number], b: (typeof all)[number]['bounds']): number =>
        Math.max(0, Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)) *
        Math.max(0, Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y));
      screen.getAllDisplays = () => all;
      screen.getDisplayMatching = (bounds) =>
        all.reduce((best, each) => (shared(each, bounds) > shared(best, bounds) ? each : best));
      screen.emit('display-metrics-changed', {}, all[0], ['bounds']);
    }, displays);
  }

  /** Clicks an item of the menu by the labels that lead to it. */
  menu(...labels: readonly string[]): Promise<void> {
    return this.app.evaluate(({ Menu }, path) => {
      let items = Menu.getApplicationMenu()?.items ?? [];
      for (const label of path.slice(0, -1)) {
        items = items.find((item) => item.label === label)?.submenu?.items ?? [];
      }
      const item = items.find(({ label }) => label.startsWith(path[path.length - 1]!));
      if (!item) throw new Error(`The menu has no ${path.join(', ')}.`);
      item.click();
    }, labels);
  }
}

function hasDisplay({ platform, env }: Pick<NodeJS.Process, 'platform' | 'env'>): boolean {
  return platform !== 'linux' || Boolean(env['DISPLAY'] || env['WAYLAND_DISPLAY']);
}

function display(id: number, label: string, internal: boolean, x: number, width: number, height: number) {
  return { id, label, internal, bounds: { x, y: 0, width, height } };
}
