/*
 * Stands in for `webContents`: a page of a real Chromium, with the events of its loading and its death.
 */

import { EventEmitter } from 'node:events';
import { readFileSync } from 'node:fs';
import type Electron from 'electron';
import type { CDPSession, Download, Frame, Page, Request as PageRequest, Route } from 'playwright';
import { fromBrowser, toBrowser } from './system/addresses.ts';
import type { Engine } from './engine.ts';
import { frameOf, type StandInIpcMain } from './system/messages.ts';
import { aroundPreload, HEAR, SEND } from './preload.ts';
import type { StandInSession } from './system/session.ts';

export interface ContentsPorts {
  readonly engine: Promise<Engine>;
  readonly ipcMain: StandInIpcMain;
  readonly session: StandInSession;
}

export type Size = Pick<Electron.Rectangle, 'width' | 'height'>;

type OpenHandler = (details: { readonly url: string }) => { readonly action: 'allow' | 'deny' };

interface Shown {
  readonly page: Page;
  readonly target: string;
  readonly session: CDPSession;
}

type ContentsParts = Pick<
  Electron.WebContents,
  'id' | 'loadURL' | 'getURL' | 'send' | 'isDestroyed' | 'isCrashed' | 'forcefullyCrashRenderer' | 'executeJavaScript'
>;

export class StandInContents extends EventEmitter implements ContentsParts {
  static readonly all = new Set<StandInContents>();
  private static lastId = 0;
  readonly id = ++StandInContents.lastId;
  readonly preferences: Electron.WebPreferences;
  target: string | null = null;
  private readonly ports: ContentsPorts;
  private readonly shown: Promise<Shown>;
  private openHandler: OpenHandler = () => ({ action: 'allow' });
  /** The address that the program itself is loading: such a navigation is not asked about. */
  private loading: string | null = null;
  private address = '';
  /** A navigation of the page has been let go, and has not arrived. */
  private isLeaving = false;
  private destroyed = false;
  private crashed = false;

  constructor(ports: ContentsPorts, preferences: Electron.WebPreferences, size: Size) {
    super();
    this.ports = ports;
    this.preferences = preferences;
    StandInContents.all.add(this);
    this.shown = this.open(size);
    // The page may be closed before it was ever there.
    this.shown.catch(() => undefined);
  }

  async loadURL(address: string): Promise<void> {
    const { page } = await this.shown;
    this.loading = address;
    await page.goto(toBrowser(address), { waitUntil: 'load' });
  }

  getURL(): string {
    return this.address;
  }

  isDestroyed(): boolean {
    return this.destroyed;
  }

  isCrashed(): boolean {
    return this.crashed;
  }

  setWindowOpenHandler(handler: OpenHandler): void {
    this.openHandler = handler;
  }

  send(channel: string, ...words: unknown[]): void {
    const text = JSON.stringify(structuredClone(words));
    const expression = `window[${JSON.stringify(HEAR)}]?.(${JSON.stringify(channel)}, ${text})`;
    void this.shown
      .then(({ session }) => session.send('Runtime.evaluate', { expression }))
      // A page that goes meanwhile hears nothing, as with Electron.
      .catch(() => undefined);
  }

  forcefullyCrashRenderer(): void {
    void this.shown.then(({ session }) => session.send('Page.crash')).catch(() => undefined);
  }

  async executeJavaScript(code: string): Promise<unknown> {
    const { page } = await this.shown;
    return page.evaluate(code);
  }

  async capturePage(): Promise<Pick<Electron.NativeImage, 'isEmpty' | 'toPNG'>> {
    const { page } = await this.shown;
    const png = await page.screenshot();
    return { isEmpty: () => png.length === 0, toPNG: () => png };
  }

  /** The room that the page has, whatever the window manager says. */
  async resize({ width, height }: Size): Promise<void> {
    const { session } = await this.shown;
    const metrics = { width, height, deviceScaleFactor: 1, mobile: false };
    await session.send('Emulation.setDeviceMetricsOverride', metrics).catch(() => undefined);
  }

  destroy(): void {
    if (this.destroyed) return;
    this.destroyed = true;
    StandInContents.all.delete(this);
    this.emit('destroyed');
    void Promise.all([this.ports.engine, this.shown])
      .then(([engine, { target }]) => engine.closePage(target))
      .catch(() => undefined);
  }

  private async open(size: Size): Promise<Shown> {
    const engine = await this.ports.engine;
    const { page, target } = await engine.newPage(size.width, size.height);
    this.target = target;
    const session = await engine.context.newCDPSession(page);
    const { preload } = this.preferences;
    await page.exposeBinding(SEND, ({ frame }, how: string, channel: string, text: string) => {
      const event = { sender: this, senderFrame: frameOf(frame), frameId: 0, processId: 0 };
      const words = JSON.parse(text) as unknown[];
      if (how === 'invoke') return this.ports.ipcMain.invoked(event, channel, words);
      this.ports.ipcMain.sent(event, channel, words);
      return '';
    });
    if (preload !== undefined) await page.addInitScript(aroundPreload(readFileSync(preload, 'utf8')));
    await page.route('**/*', (route) => this.requested(route));
    page.on('framenavigated', (frame) => this.navigated(frame));
    page.on('download', (download) => this.downloaded(download));
    page.on('load', () => this.emit('did-finish-load'));
    page.on('popup', (popup) => {
      if (this.openHandler({ url: fromBrowser(popup.url()) }).action === 'deny') void popup.close();
    });
    page.on('crash', () => {
      this.crashed = true;
      this.emit('render-process-gone', {}, { reason: 'crashed', exitCode: 5 });
    });
    const shown = { page, target, session };
    await session.send('Emulation.setDeviceMetricsOverride', { ...size, deviceScaleFactor: 1, mobile: false });
    return shown;
  }

  private async requested(route: Route): Promise<void> {
    const request = route.request();
    if (request.isNavigationRequest() && this.isNavigationRefused(request)) return route.abort('aborted');
    await this.ports.session.answer(route).catch(() => route.abort().catch(() => undefined));
  }

  /** Tells of each navigation that begins, then asks the program about one that the page itself has begun: in this order. */
  private isNavigationRefused(request: PageRequest): boolean {
    const url = fromBrowser(request.url());
    const isMainFrame = request.frame().parentFrame() === null;
    this.emit('did-start-navigation', { url, isMainFrame, isSameDocument: false });
    if (isMainFrame && url === this.loading) this.loading = null;
    else {
      let refused = false;
      const details = { url, isMainFrame, isSameDocument: false, preventDefault: () => (refused = true) };
      this.emit('will-frame-navigate', details);
      if (isMainFrame && !refused) this.emit('will-navigate', details);
      if (refused) return true;
    }
    if (isMainFrame) this.isLeaving = true;
    return false;
  }

  /** The page that was is gone, the next one is there: the first moment at which its address is the window's. */
  private navigated(frame: Frame): void {
    if (frame.parentFrame() !== null) return;
    this.address = fromBrowser(frame.url());
    if (this.isLeaving) this.emit('did-navigate', {}, this.address);
    this.isLeaving = false;
  }

  private downloaded(download: Download): void {
    let path: string | null = null;
    const item = {
      getFilename: () => download.suggestedFilename(),
      setSaveDialogOptions: (options: Electron.SaveDialogOptions) => this.ports.session.saveDialogs.push(options),
      setSavePath: (chosen: string) => (path = chosen),
    };
    this.ports.session.emit('will-download', {}, item, this);
    // With no path there would be a dialog, and nobody to answer it here.
    void (path === null ? download.cancel() : download.saveAs(path)).catch(() => undefined);
  }
}
