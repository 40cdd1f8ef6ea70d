/*
 * How every window's page is run: in a sandbox, isolated from its preload script, without Node. Every setting is
 * written out, so that a default that changes changes nothing here.
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
