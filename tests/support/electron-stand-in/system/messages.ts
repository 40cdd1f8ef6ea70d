/*
 * Stands in for `ipcMain`: what windows send arrives here in the order in which it was sent, with the frame
 * it came from.
 */

import { EventEmitter } from 'node:events';
import type Electron from 'electron';
import type { Frame } from 'playwright';
import { fromBrowser } from './addresses.ts';

type Handler = (event: object, ...words: unknown[]) => unknown;

export class StandInIpcMain extends EventEmitter {
  private readonly handlers = new Map<string, Handler>();

  /** Throws for a second handler, as Electron does. */
  handle(channel: string, handler: Handler): void {
    if (this.handlers.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`);
    this.handlers.set(channel, handler);
  }

  removeHandler(channel: string): void {
    this.handlers.delete(channel);
  }

  sent(event: object, channel: string, words: readonly unknown[]): void {
    this.emit(channel, event, ...words);
  }

  /** What `invoke` gets, as text: a value, or the message of an error. */
  async invoked(event: object, channel: string, words: readonly unknown[]): Promise<string> {
    const handler = this.handlers.get(channel);
    if (!handler) return JSON.stringify({ error: `No handler registered for '${channel}'` });
    try {
      const value = structuredClone(await handler(event, ...words));
      return JSON.stringify({ value: value === undefined ? null : value });
    } catch (error) {
      return JSON.stringify({ error: String(error) });
    }
  }
}

/** The frame that sent something, in the little of it that can be known here. */
export function frameOf(frame: Frame): Pick<Electron.WebFrameMain, 'url'> & { readonly parent: object | null } {
  const parent = frame.parentFrame();
  return { url: fromBrowser(frame.url()), parent: parent && frameOf(parent) };
}
