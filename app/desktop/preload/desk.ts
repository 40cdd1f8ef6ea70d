/*
 * Runs before the page of the coach's window, which may ask as well as show.
 */

import { contextBridge, ipcRenderer } from 'electron';
import { BRIDGE, CHANNELS, type CoachBridge, type Reply, type SessionFile } from '../../wire/window-bridge.ts';
import { deckBridge } from './deck-bridge.ts';
import { pageObserver, tellWhenPainted } from './paint.ts';

contextBridge.exposeInMainWorld(BRIDGE, coachBridge());
tellWhenPainted(pageObserver());

function coachBridge(): CoachBridge {
  let listener: ((file: SessionFile) => void) | null = null;
  // A file may arrive before the page is ready for it.
  let waiting: SessionFile[] = [];

  ipcRenderer.on(CHANNELS.sessionFile, (_, file: SessionFile) => {
    if (listener) listener(file);
    else waiting.push(file);
  });

  return {
    ...deckBridge(),
    ask: (method, path, body) =>
      ipcRenderer.invoke(CHANNELS.ask, String(method), String(path), String(body)) as Promise<Reply>,
    onSessionFile(call) {
      listener = call;
      const files = waiting;
      waiting = [];
      files.forEach(call);
    },
  };
}
