/*
 * What a window may load: its own page, and the files that the program itself serves. Everything else is refused, in
 * every window, whatever page it shows.
 */

import type { Session, WebContents } from 'electron';
import { isPageOf, ownAddress, type WindowKind } from '../windows/window-kind.ts';

/** A page may load itself again, and nothing else. */
export function mayNavigate(kind: WindowKind, address: string): boolean {
  return isPageOf(kind, address);
}

/** In the coach's window a wall screen is shown small, in a frame. */
export function mayFrame(kind: WindowKind, address: string): boolean {
  return kind === 'desk' && isPageOf('wall', address) && (ownAddress(address)?.searchParams.has('preview') ?? false);
}

/** `blob:` and `data:` stay inside the page that made them; `devtools:` is Chromium's own. */
export function mayRequest(address: string): boolean {
  if (ownAddress(address)) return true;
  return /^(blob:app:\/\/lanecall\/|data:|devtools:\/\/)/.test(address);
}

/** Keeps a window on its own page. */
export function guardNavigation(contents: WebContents, kind: WindowKind): void {
  contents.on('will-navigate', (details) => {
    if (!mayNavigate(kind, details.url)) details.preventDefault();
  });
  contents.on('will-frame-navigate', (details) => {
    const may = details.isMainFrame ? mayNavigate : mayFrame;
    if (!may(kind, details.url)) details.preventDefault();
  });
  contents.on('will-redirect', (details) => details.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
}

/** Stops every request that is not for the program's own pages. */
export function guardRequests(session: Session): void {
  session.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !mayRequest(details.url) }));
}
