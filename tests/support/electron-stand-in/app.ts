/*
 * Stands in for Electron's `app`: the life of the program from its start over quitting to its end, its
 * folders, and the lock that keeps it single, which is real: it works between processes.
 */

import { createHash } from 'node:crypto';
import { EventEmitter } from 'node:events';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type Electron from 'electron';
import { asTheFirstHearsThem } from './command-line.ts';

type AppParts = Pick<
  Electron.App,
  | 'whenReady'
  | 'isReady'
  | 'quit'
  | 'exit'
  | 'getPath'
  | 'setPath'
  | 'getName'
  | 'enableSandbox'
  | 'requestSingleInstanceLock'
  | 'commandLine'
>;

export interface AppPorts {
  /** Closes all windows as for quitting; false where one refuses. */
  closeWindows(): boolean;
  /** Ends the process and all that belongs to it. */
  end(status: number): void;
}

/** What a second process tells the first. */
interface SecondInstance {
  readonly argv: readonly string[];
  readonly cwd: string;
  readonly data: unknown;
}

export class StandInApp extends EventEmitter implements AppParts {
  readonly commandLine: Electron.CommandLine;
  readonly switches: Map<string, string>;
  isSandboxed = false;
  /** It is on its way out, and nothing more is begun. */
  isEnding = false;
  private isQuitting = false;
  private ports: AppPorts | null = null;
  private ready = false;
  private readonly paths = new Map<string, string>();
  private readonly readiness: Promise<void>;
  private becomeReady = (): void => undefined;
  /** A second process on its way out has something to say to the first. */
  private telling: Promise<void> | null = null;
  /** Instances that came before the program was ready are told of then. */
  private early: SecondInstance[] = [];

  /** switches: of the command line. */
  constructor(switches: Map<string, string> = new Map()) {
    super();
    this.switches = switches;
    this.readiness = new Promise((resolve) => (this.becomeReady = resolve));
    this.commandLine = {
      appendSwitch: (name: string, value = '') => void this.switches.set(name, value),
      hasSwitch: (name: string) => this.switches.has(name),
      getSwitchValue: (name: string) => this.switches.get(name) ?? '',
      appendArgument: () => undefined,
      removeSwitch: (name: string) => void this.switches.delete(name),
    };
  }

  connect(ports: AppPorts): void {
    this.ports = ports;
  }

  setReady(): void {
    this.ready = true;
    this.emit('ready', {}, {});
    this.becomeReady();
    for (const { argv, cwd, data } of this.early.splice(0)) this.emit('second-instance', {}, argv, cwd, data);
  }

  isReady(): boolean {
    return this.ready;
  }

  whenReady(): Promise<void> {
    return this.readiness;
  }

  getName(): string {
    return 'Lanecall';
  }

  getPath(name: Parameters<Electron.App['getPath']>[0]): string {
    const path = this.paths.get(name);
    if (path !== undefined) return path;
    const made = join(tmpdir(), 'lanecall-stand-in', name);
    mkdirSync(made, { recursive: true });
    return made;
  }

  /** Throws where there is no such folder, as the documentation says. */
  setPath(name: string, path: string): void {
    if (!existsSync(path)) throw new Error(`Failed to set '${name}' path: there is no such folder`);
    this.paths.set(name, path);
  }

  enableSandbox(): void {
    if (this.ready) throw new Error('app.enableSandbox() can only be called before app is ready');
    this.isSandboxed = true;
    this.switches.delete('no-sandbox');
  }

  /** Belongs to the `userData` folder, as with Electron. */
  requestSingleInstanceLock(data?: Record<string, unknown>): boolean {
    const folder = this.getPath('userData');
    const name = `lanecall-${createHash('sha256').update(folder).digest('hex').slice(0, 16)}`;
    const place = process.platform === 'win32' ? `\\\\.\\pipe\\${name}` : join(tmpdir(), name);
    const marker = join(folder, 'stand-in.lock');
    if (isHeld(marker)) {
      this.telling = new Promise((resolve) => {
        const told = connect(place, () =>
          told.end(JSON.stringify({ argv: asTheFirstHearsThem(process.argv), cwd: process.cwd(), data })),
        );
        told.on('error', () => undefined);
        told.on('close', () => resolve());
      });
      return false;
    }
    writeFileSync(marker, String(process.pid));
    rmSync(place, { force: true });
    const lock = createServer({ allowHalfOpen: false }, (socket) => {
      let text = '';
      socket.on('data', (chunk: Buffer) => (text += chunk.toString()));
      socket.on('end', () => this.heardOfAnother(JSON.parse(text) as SecondInstance));
    });
    lock.listen(place).unref();
    process.on('exit', () => {
      rmSync(marker, { force: true });
      rmSync(place, { force: true });
    });
    return true;
  }

  /** Asks listeners first, then closes the windows, then ends; each may say no. */
  quit(): void {
    if (this.isRefused('before-quit')) return;
    this.isQuitting = true;
    const allClosed = this.ports?.closeWindows() ?? true;
    this.isQuitting = false;
    if (!allClosed) return;
    if (this.isRefused('will-quit')) return;
    this.exit(0);
  }

  /** Ends without asking anybody. */
  exit(status = 0): void {
    this.isEnding = true;
    this.emit('quit', {}, status);
    const end = (): void => (this.ports ? this.ports.end(status) : process.exit(status));
    if (this.telling) void this.telling.then(end);
    else end();
  }

  /** The last window is closed: with nobody listening the program ends. Of no account while it quits anyway. */
  windowsAllClosed(): void {
    if (this.isQuitting) return;
    if (this.listenerCount('window-all-closed') > 0) this.emit('window-all-closed');
    else this.quit();
  }

  private heardOfAnother(instance: SecondInstance): void {
    if (!this.ready) this.early.push(instance);
    else this.emit('second-instance', {}, instance.argv, instance.cwd, instance.data);
  }

  private isRefused(event: string): boolean {
    let refused = false;
    this.emit(event, { preventDefault: () => (refused = true) });
    return refused;
  }
}

/** Whether the process that the marker names is alive. */
function isHeld(marker: string): boolean {
  try {
    process.kill(Number(readFileSync(marker, 'utf8')), 0);
    return true;
  } catch {
    return false;
  }
}
