/*
 * How every window's page is run: shut in, apart from the preload script, with no way to Node. Written
 * out in full, so that no change of a default changes it.
 */

import type { WebPreferences } from 'electron';

/** preload: the absolute path of the window's preload script. */
export function webPreferences(preload: string): WebPreferences {
  return {
    preload,
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
    webviewTag: false,
    navigateOnDragDrop: false,
    // Clock and cues run on when another window is in front.
    backgroundThrottling: false,
    // It would fetch word lists from the network.
    spellcheck: false,
  };
}
