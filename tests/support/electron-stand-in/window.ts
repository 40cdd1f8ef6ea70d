/*
 * Stands in for `BrowserWindow`: bounds, full screen and closing as the documentation has them, without a
 * window manager. The page in it gets the room that the window would have.
 */

import { EventEmitter } from 'node:events';
import type Electron from 'electron';
import { StandInContents, type ContentsPorts } from './contents.ts';

type Rectangle = Electron.Rectangle;

export interface WindowPorts extends ContentsPorts {
  /** The bounds of the display that a window is mostly on. */
  displayOf(bounds: Rectangle): Rectangle;
  /** The last window is closed. */
  allClosed(): void;
}

type WindowParts = Pick<
  Electron.BrowserWindow,
  | 'show'
  | 'showInactive'
  | 'focus'
  | 'close'
  | 'destroy'
  | 'isDestroyed'
  | 'isMinimized'
  | 'restore'
  | 'isFullScreen'
  | 'setFullScreen'
  | 'getBounds'
  | 'getNormalBounds'
  | 'setMenuBarVisibility'
>;

export class StandInWindow extends EventEmitter implements WindowParts {
  static ports: WindowPorts | null = null;
  static readonly all: StandInWindow[] = [];
  readonly webContents: StandInContents;
  readonly title: string;
  isVisible = false;
  isFocused = false;
  private bounds: Rectangle;
  private normal: Rectangle;
  private full = false;
  private destroyed = false;

  constructor({
    x = 0,
    y = 0,
    width = 800,
    height = 600,
    title = '',
    ...rest
  }: Electron.BrowserWindowConstructorOptions) {
    super();
    const { ports } = StandInWindow;
    if (!ports) throw new Error('Cannot create BrowserWindow before app is ready');
    this.title = title;
    this.bounds = this.normal = { x, y, width, height };
    this.webContents = new StandInContents(ports, rest.webPreferences ?? {}, { width, height });
    StandInWindow.all.push(this);
  }

  static getAllWindows(): StandInWindow[] {
    return [...StandInWindow.all];
  }

  static fromWebContents(contents: StandInContents): StandInWindow | null {
    return StandInWindow.all.find(({ webContents }) => webContents === contents) ?? null;
  }

  show(): void {
    this.isVisible = true;
    this.focus();
  }

  showInactive(): void {
    this.isVisible = true;
  }

  focus(): void {
    StandInWindow.all.forEach((other) => (other.isFocused = other === this));
  }

  isMinimized(): boolean {
    return false;
  }

  restore(): void {
    // Nothing here is ever minimised.
  }

  setMenuBarVisibility(): void {
    // There is no menu bar to be seen.
  }

  getBounds(): Rectangle {
    return { ...this.bounds };
  }

  /** Where it is, or would be if it were not full screen. */
  getNormalBounds(): Rectangle {
    return { ...this.normal };
  }

  /** Of no effect in full screen, as with most systems. */
  setBounds(bounds: Partial<Rectangle>): void {
    if (this.full) return;
    this.moveTo({ ...this.bounds, ...bounds });
    this.normal = this.bounds;
  }

  isFullScreen(): boolean {
    return this.full;
  }

  /** On the display that the window is on; done a little later, and told of then. */
  setFullScreen(on: boolean): void {
    if (on === this.full) return;
    setTimeout(() => {
      if (this.destroyed) return;
      this.full = on;
      this.moveTo(on ? StandInWindow.ports!.displayOf(this.bounds) : this.normal);
      this.emit(on ? 'enter-full-screen' : 'leave-full-screen');
    }, 20);
  }

  isSimpleFullScreen(): boolean {
    return this.full;
  }

  setSimpleFullScreen(on: boolean): void {
    this.full = on;
    this.moveTo(on ? StandInWindow.ports!.displayOf(this.bounds) : this.normal);
  }

  /** Asks first; whoever listens to `close` may refuse. */
  close(): void {
    if (this.destroyed) return;
    let refused = false;
    this.emit('close', { preventDefault: () => (refused = true) });
    if (!refused) this.destroy();
  }

  /** Without asking; `closed` comes all the same. */
  destroy(): void {
    if (this.destroyed) return;
    this.destroyed = true;
    StandInWindow.all.splice(StandInWindow.all.indexOf(this), 1);
    this.webContents.destroy();
    this.emit('closed');
    if (StandInWindow.all.length === 0) StandInWindow.ports!.allClosed();
  }

  isDestroyed(): boolean {
    return this.destroyed;
  }

  private moveTo(bounds: Rectangle): void {
    const { width, height } = bounds;
    if (width !== this.bounds.width || height !== this.bounds.height) void this.webContents.resize({ width, height });
    this.bounds = bounds;
  }
}
