/*
 * Stands in for the one session of all windows: answers their requests from the program's own scheme,
 * asks the program whether a request may be made, and lets none out to a network.
 */

import { EventEmitter } from 'node:events';
import type Electron from 'electron';
import type { Route } from 'playwright';
import { fromBrowser } from './addresses.ts';

type Handler = (request: Request) => Response | Promise<Response>;
type RequestListener = (
  details: { readonly url: string },
  answer: (response: Electron.CallbackResponse) => void,
) => void;

export class StandInSession extends EventEmitter {
  /** What the program wants of the dialogs for what is saved. */
  readonly saveDialogs: Electron.SaveDialogOptions[] = [];
  /** Handlers that were set, by the name of what set them. */
  readonly permissionHandlers = new Map<string, unknown>();
  private readonly schemes = new Map<string, Handler>();
  private beforeRequest: RequestListener | null = null;

  readonly protocol = {
    handle: (scheme: string, handler: Handler): void => {
      if (this.schemes.has(scheme)) throw new Error(`Failed to register protocol: ${scheme}`);
      this.schemes.set(scheme, handler);
    },
  };

  readonly webRequest = {
    onBeforeRequest: (listener: RequestListener | null): void => {
      this.beforeRequest = listener;
    },
  };

  setPermissionRequestHandler(handler: unknown): void {
    this.permissionHandlers.set('request', handler);
  }

  setPermissionCheckHandler(handler: unknown): void {
    this.permissionHandlers.set('check', handler);
  }

  setDevicePermissionHandler(handler: unknown): void {
    this.permissionHandlers.set('device', handler);
  }

  async answer(route: Route): Promise<void> {
    const request = route.request();
    const url = fromBrowser(request.url());
    if (await this.isCancelled(url)) return route.abort('blockedbyclient');
    const handler = this.schemes.get(new URL(url).protocol.slice(0, -1));
    if (!handler) return route.abort('internetdisconnected');
    const body = request.postDataBuffer();
    const response = await handler(
      new Request(url, { method: request.method(), ...(body ? { body: new Uint8Array(body) } : {}) }),
    );
    await route.fulfill({
      status: response.status,
      headers: Object.fromEntries(response.headers),
      body: Buffer.from(await response.arrayBuffer()),
    });
  }

  private isCancelled(url: string): Promise<boolean> {
    const listener = this.beforeRequest;
    if (!listener) return Promise.resolve(false);
    return new Promise((resolve) => listener({ url }, ({ cancel = false }) => resolve(cancel)));
  }
}
