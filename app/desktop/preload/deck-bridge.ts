/*
 * The bridge that both windows' preload scripts put on `window`: named functions only, each good for one
 * thing. Electron's own objects and events stay on this side.
 */

import { ipcRenderer } from 'electron';
import { CHANNELS, type WindowBridge } from '../../wire/window-bridge.ts';

interface Hearing {
  readonly message: (text: string) => void;
  readonly closed: () => void;
}

export function deckBridge(): WindowBridge {
  // Connections are numbered, so that a late message from an older one is dropped.
  let connection = 0;
  let hearing: Hearing | null = null;
  const woken: (() => void)[] = [];

  ipcRenderer.on(CHANNELS.heard, (_, from: unknown, text: unknown) => {
    if (from === connection && typeof text === 'string') hearing?.message(text);
  });
  ipcRenderer.on(CHANNELS.closed, (_, from: unknown) => {
    if (from !== connection) return;
    const { closed } = hearing ?? {};
    hearing = null;
    closed?.();
  });
  ipcRenderer.on(CHANNELS.woken, () => woken.forEach((call) => call()));

  return {
    connect(message, closed) {
      connection++;
      hearing = { message, closed };
      ipcRenderer.send(CHANNELS.connect, connection);
    },
    say: (text) => ipcRenderer.send(CHANNELS.say, connection, String(text)),
    hangUp() {
      hearing = null;
      ipcRenderer.send(CHANNELS.hangUp, connection);
    },
    onWoken: (call) => void woken.push(call),
  };
}
