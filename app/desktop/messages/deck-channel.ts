/*
 * Carries deck messages between the windows and the host, as the socket does for screens on the network. Each window
 * has one connection at a time; a page that is reloaded opens a new one.
 */

import { ipcMain, type IpcMainEvent, type IpcMainInvokeEvent, type WebContents } from 'electron';
import type { Clock } from '../../host/time/clock.ts';
import { ALONE, type Company } from '../../host/deck/telling/company.ts';
import type { DeckHost } from '../../host/deck/deck-host.ts';
import { answerPut, questionsOf, type Shelves } from '../../host/deck/answers/questions.ts';
import { connectScreen, type Screen, type ScreenChannel } from '../../host/deck/telling/screen.ts';
import { THIS_MACHINE } from '../../host/sharing/doors/guest.ts';
import { CHANNELS, type Reply } from '../../wire/window-bridge.ts';
import { maySay, mayUse, senderOf } from './sender.ts';
import type { WindowKind } from '../windows/window-kind.ts';

export interface DeckChannel {
  /** A window's page is gone, for whatever reason. */
  gone(contents: number): void;
}

interface Connection {
  readonly n: number;
  readonly screen: Screen;
}

export interface ChannelPorts extends Shelves {
  /** What windows reach besides the run. */
  readonly company?: Company;
  /** Which window a `webContents.id` belongs to; null for none of ours. */
  kindOf(contents: number): WindowKind | null;
  /** The page of a window has been painted for the first time since it was loaded. */
  painted(kind: WindowKind): void;
}

export function openDeckChannel(host: DeckHost, clock: Clock, ports: ChannelPorts): DeckChannel {
  const { kindOf, painted, company = ALONE } = ports;
  const connections = new Map<number, Connection>();
  const questions = questionsOf(ports);

  const gone = (contents: number): void => {
    connections.get(contents)?.screen.gone();
    connections.delete(contents);
  };

  /** The window's kind where it may use the channel. */
  const admitted = (channel: string, event: IpcMainEvent | IpcMainInvokeEvent): WindowKind | null => {
    const kind = kindOf(event.sender.id);
    return mayUse(channel, senderOf(kind, event.senderFrame)) ? kind : null;
  };

  ipcMain.on(CHANNELS.connect, (event, n: unknown) => {
    if (admitted(CHANNELS.connect, event) === null || typeof n !== 'number') return;
    const { sender } = event;
    gone(sender.id);
    const hungUp = (): void => post(sender, CHANNELS.closed, n);
    const carrier: ScreenChannel = {
      isOwnWindow: true,
      // Electron does not say how much is still waiting in the channel.
      waiting: () => 0,
      send(text, sent) {
        post(sender, CHANNELS.heard, n, text);
        sent();
      },
      close: hungUp,
      terminate: hungUp,
    };
    const screen = connectScreen(host, clock, carrier, THIS_MACHINE, company);
    connections.set(sender.id, { n, screen });
  });

  ipcMain.on(CHANNELS.say, (event, n: unknown, text: unknown) => {
    const kind = admitted(CHANNELS.say, event);
    const connection = connections.get(event.sender.id);
    if (kind === null || !connection || connection.n !== n || typeof text !== 'string') return;
    if (maySay(kind, text)) connection.screen.receive(text);
    else
      connection.screen.dismiss(kind === 'wall' ? 'The wall screen only shows.' : 'That was no message of a screen.');
  });

  ipcMain.on(CHANNELS.hangUp, (event, n: unknown) => {
    if (admitted(CHANNELS.hangUp, event) === null) return;
    if (connections.get(event.sender.id)?.n === n) gone(event.sender.id);
  });

  ipcMain.on(CHANNELS.painted, (event) => {
    const kind = admitted(CHANNELS.painted, event);
    if (kind !== null) painted(kind);
  });

  ipcMain.handle(CHANNELS.ask, (event, method: unknown, path: unknown, body: unknown): Promise<Reply> => {
    if (admitted(CHANNELS.ask, event) === null) return Promise.reject(new Error('Only the coach may ask that.'));
    const isPut = [method, path, body].every((word) => typeof word === 'string');
    const put = { method: String(method), path: isPut ? String(path) : '', body: String(body) };
    return answerPut(host, questions, put);
  });

  return { gone };
}

/** A window may already be closing when there is a message for it. */
function post(contents: WebContents, channel: string, ...words: readonly unknown[]): void {
  if (!contents.isDestroyed() && !contents.isCrashed()) contents.send(channel, ...words);
}
