/*
 * A window that fills its display. macOS gives a window in its own full screen a space of its own, slowly; there
 * the simple one is used, which is at once, and which `isFullScreen` does not see.
 */

import type { BrowserWindow } from 'electron';

export function isFull(window: BrowserWindow, platform: NodeJS.Platform): boolean {
  return platform === 'darwin' ? window.isSimpleFullScreen() : window.isFullScreen();
}

/** It may be done a little later, or where a window manager has other ideas, not at all. */
export function setFull(window: BrowserWindow, on: boolean, platform: NodeJS.Platform): void {
  if (platform === 'darwin') window.setSimpleFullScreen(on);
  else window.setFullScreen(on);
}

/**
 * Before a window goes: the simple full screen hides Dock and menu bar of the whole system, and only leaving it
 * brings them back (NativeWindowMac::SetSimpleFullScreen, electron/electron#48348).
 */
export function leaveBeforeClosing(window: BrowserWindow, platform: NodeJS.Platform): void {
  if (platform === 'darwin' && window.isSimpleFullScreen()) window.setSimpleFullScreen(false);
}
