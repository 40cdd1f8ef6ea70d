/*
 * A machine with the desktop program on it: the stand-in of Electron without a browser, so that a test speaks for the
 * pages of its windows. The host is real, on a folder of its own; the clock is the test's.
 */

import { EventEmitter } from 'node:events';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, vi } from 'vitest';
import { startProgram, type Program } from '../../../app/desktop/program.ts';
import { pageAddress, type WindowKind } from '../../../app/desktop/windows/window-kind.ts';
import { WIRE_VERSION, type FromHost } from '../../../app/wire/messages.ts';
import { CHANNELS } from '../../../app/wire/window-bridge.ts';
import { FakeClock } from '../clock/fake-clock.ts';
import { StandInApp } from '../electron-stand-in/app.ts';
import { StandInIpcMain } from '../electron-stand-in/system/messages.ts';
import { StandInSession } from '../electron-stand-in/system/session.ts';
import { StandInMenu, StandInPowerSaveBlocker, StandInScreen } from '../electron-stand-in/system/system.ts';
import { StandInWindow } from '../electron-stand-in/window.ts';
import { freshDataFolder } from '../host/folders/data-folder.ts';
import { readFromHost } from '../host/from-host.ts';
import { laptop, tv } from './some-displays.ts';

export const SESSION = 'Squad\nlane 1 Ana\n\nMain set\n8 x 50 @ 1:00\n';

/** In ms: screens hear of all that is new within it. */
export const MOMENT = 300;

/** What a program takes from the process that it is in. */
const OF_THE_PROCESS = ['SIGINT', 'SIGTERM', 'SIGHUP', 'uncaughtException'] as const;

interface AliveLine {
  readonly say: 'alive';
  readonly at: number;
  readonly leaves: readonly unknown[];
}

export class Machine {
  readonly clock = new FakeClock();
  readonly folder = freshDataFolder();
  /** Where the program keeps its data. */
  readonly data = join(this.folder, 'own');
  readonly printed: string[] = [];
  /** With which statuses the program has ended. */
  ended: number[] = [];
  app = new StandInApp();
  monitor = new EventEmitter();
  ipc = new StandInIpcMain();
  session = new StandInSession();
  blocker = new StandInPowerSaveBlocker();
  readonly screen = new StandInScreen([laptop, tv]);
  private readonly electron: object;
  private readonly before = OF_THE_PROCESS.map((name) => process.listeners(name as 'SIGINT'));

  /** electron: what stands in the module's place. */
  constructor(electron: object) {
    this.electron = electron;
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => this.printed.push(String(text)) > 0);
    this.anotherProcess();
  }

  /** The one before has ended. switches: that Chromium has. */
  anotherProcess(switches: Readonly<Record<string, string>> = {}): void {
    for (const window of StandInWindow.getAllWindows()) window.destroy();
    this.ended = [];
    this.app = new StandInApp(new Map(Object.entries(switches)));
    this.app.connect({ closeWindows: () => true, end: (status) => void this.ended.push(status) });
    this.monitor = new EventEmitter();
    this.ipc = new StandInIpcMain();
    this.session = new StandInSession();
    this.blocker = new StandInPowerSaveBlocker();
    Object.assign(this.electron, {
      app: this.app,
      BrowserWindow: StandInWindow,
      ipcMain: this.ipc,
      Menu: StandInMenu,
      powerMonitor: this.monitor,
      powerSaveBlocker: this.blocker,
      screen: this.screen,
      session: { defaultSession: this.session },
    });
    StandInWindow.ports = {
      engine: new Promise(() => undefined),
      ipcMain: this.ipc,
      session: this.session,
      displayOf: (bounds) => this.screen.getDisplayMatching(bounds).bounds,
      allClosed: () => undefined,
      platform: process.platform,
      later: (call, wait) => void this.clock.timers.set(call, wait),
    };
  }

  async start(): Promise<Program> {
    const pages = join(this.folder, 'pages');
    for (const name of ['desk', 'wall']) {
      mkdirSync(join(pages, name), { recursive: true });
      writeFileSync(join(pages, name, 'index.html'), `<p>${name}</p>`);
    }
    const started = await startProgram(this.data, pages);
    if (!started.ok) throw new Error(started.why);
    return started.program;
  }

  /** With a session that is open and has been started. */
  async going(): Promise<{ readonly program: Program; readonly desk: WindowPage }> {
    const program = await this.start();
    await program.openFile(this.file('a.txt'), null);
    const desk = await this.page('desk').come();
    await desk.commands('start', { do: 'start' });
    return { program, desk };
  }

  page(kind: WindowKind): WindowPage {
    return new WindowPage(this, kind);
  }

  /** It is shut down: nobody is asked. */
  async shutDown(): Promise<void> {
    this.monitor.emit('shutdown');
    await vi.waitFor(() => expect(this.ended).toEqual([0]));
  }

  /** Ends what still runs, and gives the process back. */
  async put(): Promise<void> {
    if (this.app.listenerCount('before-quit') > 0 && this.ended.length === 0) await this.shutDown();
    OF_THE_PROCESS.forEach((name, index) => {
      for (const listener of process.listeners(name as 'SIGINT')) {
        if (!this.before[index]!.includes(listener)) process.off(name, listener);
      }
    });
    vi.restoreAllMocks();
  }

  /** The path of a session file. */
  file(name: string): string {
    const path = join(this.folder, name);
    writeFileSync(path, SESSION);
    return path;
  }

  /** The only record. */
  lines(): readonly ({ readonly say: string } | AliveLine)[] {
    const folder = join(this.data, 'runs');
    const name = readdirSync(folder).find((each) => each.endsWith('.jsonl'))!;
    const whole = readFileSync(join(folder, name), 'utf8').split('\n').slice(0, -1);
    return whole.map((line) => JSON.parse(line) as { readonly say: string });
  }

  /** The signs of life in it. */
  signs(): readonly AliveLine[] {
    return this.lines().filter((line): line is AliveLine => line.say === 'alive');
  }

  /** So much later nothing waits to be written. */
  async writtenAfter(ms: number): Promise<void> {
    const before = this.signs().length;
    this.clock.advance(MOMENT);
    await vi.waitFor(() => expect(this.signs().length).toBeGreaterThan(before));
    this.clock.stall(ms - MOMENT);
  }

  settings(): unknown {
    return JSON.parse(readFileSync(join(this.data, 'windows.json'), 'utf8'));
  }

  /** Clicks an item of the menu by the labels that lead to it. */
  clicks(...labels: readonly string[]): void {
    let items = StandInMenu.getApplicationMenu()!.items;
    for (const label of labels.slice(0, -1)) items = items.find((item) => item.label === label)!.submenu!.items;
    items.find(({ label }) => label === labels.at(-1))!.click();
  }
}

/** A window of the program, with its page spoken for. */
export class WindowPage {
  /** What its page is told of besides deck messages. */
  readonly told: unknown[][] = [];
  readonly heard: FromHost[] = [];
  readonly window: StandInWindow;
  private readonly machine: Machine;
  private readonly kind: WindowKind;

  constructor(machine: Machine, kind: WindowKind) {
    this.machine = machine;
    this.kind = kind;
    this.window = StandInWindow.getAllWindows().find(({ title }) => (title === 'Lanecall') === (kind === 'desk'))!;
    const { webContents } = this.window;
    webContents.getURL = () => pageAddress(kind);
    webContents.send = (channel: string, ...words: unknown[]) => {
      if (channel === CHANNELS.heard) this.heard.push(readFromHost(String(words[1]))!);
      else this.told.push([channel, ...words]);
    };
    webContents.emit('did-finish-load');
  }

  tell(channel: string, ...words: unknown[]): void {
    const senderFrame = { url: pageAddress(this.kind), parent: null };
    this.machine.ipc.sent({ sender: this.window.webContents, senderFrame }, channel, words);
  }

  say(message: object): void {
    this.tell(CHANNELS.say, 1, JSON.stringify(message));
  }

  /** Connects, and is greeted as a screen. */
  async come(): Promise<this> {
    this.tell(CHANNELS.connect, 1);
    this.say({ say: 'hello', version: WIRE_VERSION, screen: this.kind });
    await vi.waitFor(() => expect(this.snapshots()).not.toEqual([]));
    return this;
  }

  async commands(id: string, fields: object): Promise<void> {
    this.say({ say: 'command', id, command: fields });
    await vi.waitFor(() => expect(this.heard).toContainEqual(expect.objectContaining({ say: 'answer', id })));
  }

  snapshots() {
    return this.heard.filter((message) => message.say === 'snapshot');
  }

  /** What it shows above all else, as told within a moment from now. */
  notices(): readonly string[] {
    this.machine.clock.advance(MOMENT);
    return this.heard.filter((message) => message.say === 'snapshot' || message.say === 'commands').at(-1)!.notices;
  }
}
