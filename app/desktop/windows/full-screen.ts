/*
 * A window that fills its display. On macOS the usual full screen slowly moves a window to a space of its own. The
 * simple one is immediate, so it is used there; `isFullScreen` does not see it.
 */

import type { BrowserWindow } from 'electron';

export function isFull(window: BrowserWindow, platform: NodeJS.Platform): boolean {
  return platform === 'darwin' ? window.isSimpleFullScreen() : window.isFullScreen();
}

/** The system may do it a little later, and some window managers do not do it at all. */
export function setFull(window: BrowserWindow, on: boolean, platform: NodeJS.Platform): void {
  if (platform === 'darwin') window.setSimpleFullScreen(on);
  else window.setFullScreen(on);
}

/**
 * To be called before a window closes. Simple full screen hides the Dock and the menu bar of the whole system, and
 * only leaving it brings them back (NativeWindowMac::SetSimpleFullScreen, electron/electron#48348).
 */
export function leaveBeforeClosing(window: BrowserWindow, platform: NodeJS.Platform): void {
  if (platform === 'darwin' && window.isSimpleFullScreen()) window.setSimpleFullScreen(false);
}
