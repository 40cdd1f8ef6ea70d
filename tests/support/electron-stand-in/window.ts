/*
 * Stands in for `BrowserWindow`: bounds, full screen and closing as each system has them, in its order and at its
 * pace, without a window manager. The page in it gets the room that the window would have.
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
  readonly platform: NodeJS.Platform;
  /** Under Linux: a window there knows nothing of its place, and cannot be put anywhere. */
  readonly isWayland?: boolean;
  /** What the system does in its own time, in ms. */
  later(call: () => void, wait: number): void;
}

type WindowParts = Pick<
  Electron.BrowserWindow,
  | 'show'
  | 'showInactive'
  | 'focus'
  | 'close'
  | 'destroy'
  | 'isDestroyed'
  | 'isVisible'
  | 'isFocused'
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
  /** Whether Dock and menu bar of macOS are hidden for the whole system. */
  static isDockHidden = false;
  readonly webContents: StandInContents;
  readonly title: string;
  private visible = false;
  private focused = false;
  private bounds: Rectangle;
  private normal: Rectangle;
  private full = false;
  private simple = false;
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
    this.showInactive();
    this.focus();
  }

  showInactive(): void {
    if (this.visible) return;
    this.visible = true;
    this.emit('show');
  }

  isVisible(): boolean {
    return this.visible;
  }

  focus(): void {
    StandInWindow.all.forEach((other) => (other.focused = other === this));
  }

  isFocused(): boolean {
    return this.focused;
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
    return { ...this.bounds, ...(StandInWindow.ports!.isWayland ? { x: 0, y: 0 } : {}) };
  }

  /** Where it is, or would be if it were not full screen. */
  getNormalBounds(): Rectangle {
    return { ...this.normal };
  }

  /** Of no effect in full screen, as with most systems. */
  setBounds(bounds: Partial<Rectangle>): void {
    if (this.full || this.simple) return;
    this.moveTo({ ...this.bounds, ...bounds });
    this.normal = this.bounds;
  }

  /** Of macOS's two kinds only the slow one. */
  isFullScreen(): boolean {
    return this.full;
  }

  /**
   * On the display that the window is on. Windows announces it, then does it, all within the call, and restores the
   * bounds from before whatever was set meanwhile. Under Linux Chromium takes it for done at once and guesses the bounds
   * (X11Window::SetFullscreen); the window manager does it later, from where it has the window by then.
   */
  setFullScreen(on: boolean): void {
    if (on === this.full) return;
    const event = on ? 'enter-full-screen' : 'leave-full-screen';
    const before = this.normal;
    const room = (): Rectangle => (on ? StandInWindow.ports!.displayOf(this.bounds) : before);
    if (StandInWindow.ports!.platform === 'win32') {
      const target = room();
      this.emit(event);
      this.full = on;
      this.moveTo(target);
      return;
    }
    this.full = on;
    this.moveTo(room());
    this.emit(event);
    this.later(() => this.moveTo(room()));
  }

  isSimpleFullScreen(): boolean {
    return this.simple;
  }

  /** At once, unannounced; the bounds from before come back with the end of it, and only then the Dock. */
  setSimpleFullScreen(on: boolean): void {
    if (StandInWindow.ports!.platform !== 'darwin') throw new Error('setSimpleFullScreen is of macOS');
    if (on === this.simple) return;
    this.simple = on;
    StandInWindow.isDockHidden = on;
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

  private later(call: () => void): void {
    StandInWindow.ports!.later(() => this.destroyed || call(), 20);
  }

  private moveTo(bounds: Rectangle): void {
    const { width, height } = bounds;
    if (width !== this.bounds.width || height !== this.bounds.height) void this.webContents.resize({ width, height });
    this.bounds = bounds;
  }
}
