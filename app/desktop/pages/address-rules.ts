/*
 * Where a window may go and what it may ask for: to its own page, and for what the program itself hands
 * out. All else is refused, in every window, whatever page it may have come to show.
 */

import type { Session, WebContents } from 'electron';
import { isPageOf, ownAddress, type WindowKind } from '../windows/window-kind.ts';

/** A page may load itself again, and nothing else. */
export function mayNavigate(kind: WindowKind, address: string): boolean {
  return isPageOf(kind, address);
}

/** `blob:` and `data:` stay inside the page that made them; `devtools:` is the engine's own. */
export function mayRequest(address: string): boolean {
  if (ownAddress(address)) return true;
  return /^(blob:app:\/\/lanecall\/|data:|devtools:\/\/)/.test(address);
}

/** Holds a window to its page. */
export function guardNavigation(contents: WebContents, kind: WindowKind): void {
  contents.on('will-navigate', (details) => {
    if (!mayNavigate(kind, details.url)) details.preventDefault();
  });
  contents.on('will-frame-navigate', (details) => {
    if (!details.isMainFrame || !mayNavigate(kind, details.url)) details.preventDefault();
  });
  contents.on('will-redirect', (details) => details.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
}

/** Lets nothing out of the program: no request goes to anything but its own pages. */
export function guardRequests(session: Session): void {
  session.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !mayRequest(details.url) }));
}
