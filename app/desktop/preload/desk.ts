/*
 * Runs before the page of the coach's window, which may ask as well as show.
 */

import { contextBridge, ipcRenderer } from 'electron';
import {
  BRIDGE,
  CHANNELS,
  type CoachBridge,
  type PressedKey,
  type Reply,
  type SessionFile,
} from '../../wire/window-bridge.ts';
import { deckBridge } from './deck-bridge.ts';
import { pressOn, type KeyedPage } from './pressed-keys.ts';
import { pageObserver, tellWhenPainted } from './paint.ts';

contextBridge.exposeInMainWorld(BRIDGE, coachBridge());
tellWhenPainted(pageObserver());
ipcRenderer.on(CHANNELS.key, (_, key: PressedKey) => pressOn(globalThis as unknown as KeyedPage, key));

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
