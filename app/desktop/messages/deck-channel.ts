/*
 * Carries deck messages between the windows and the host, as the socket does for screens on the network. Each window
 * has one connection at a time; a page that is reloaded opens a new one.
 */

import { ipcMain, type IpcMainEvent, type IpcMainInvokeEvent, type WebContents } from 'electron';
import { QUESTIONS, type Questions } from '../../host/deck/coach-requests.ts';
import type { Clock } from '../../host/time/clock.ts';
import type { DeckHost } from '../../host/deck/deck-host.ts';
import type { Library } from '../../host/library/library.ts';
import { LIBRARY_PATH, libraryQuestion } from '../../host/library/library-requests.ts';
import type { Records } from '../../host/records/records.ts';
import { RECORDS_PATH, recordsQuestion } from '../../host/records/records-requests.ts';
import type { Squads } from '../../host/squads/squads.ts';
import { SQUADS_PATH, squadsQuestion } from '../../host/squads/squads-requests.ts';
import { connectScreen, type Screen } from '../../host/deck/screen.ts';
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

/** The type of every question's body. */
const JSON_TYPE = 'application/json';

export interface ChannelPorts {
  readonly library: Library;
  readonly records: Records;
  readonly squads: Squads;
  /** Which window a `webContents.id` belongs to; null for none of ours. */
  kindOf(contents: number): WindowKind | null;
  /** The page of a window has been painted for the first time since it was loaded. */
  painted(kind: WindowKind): void;
}

export function openDeckChannel(host: DeckHost, clock: Clock, ports: ChannelPorts): DeckChannel {
  const { library, squads, records, kindOf, painted } = ports;
  const connections = new Map<number, Connection>();
  const questions = new Map([
    ...QUESTIONS,
    [LIBRARY_PATH, libraryQuestion(library)],
    [RECORDS_PATH, recordsQuestion(records)],
    [SQUADS_PATH, squadsQuestion(squads)],
  ]);

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
    const screen = connectScreen(host, clock, {
      isOwnWindow: true,
      // Electron does not say how much is still waiting in the channel.
      waiting: () => 0,
      send(text, sent) {
        post(sender, CHANNELS.heard, n, text);
        sent();
      },
      close: hungUp,
      terminate: hungUp,
    });
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
    return answerQuestion({ host, questions }, method, path, body);
  });

  return { gone };
}

/** Answers as the host does over HTTP; `body` is JSON. */
async function answerQuestion(
  { host, questions }: { readonly host: DeckHost; readonly questions: Questions },
  method: unknown,
  path: unknown,
  body: unknown,
): Promise<Reply> {
  const question = typeof path === 'string' ? questions.get(path) : undefined;
  if (!question || method !== question.method || typeof body !== 'string') {
    return replyOf(404, { ok: false, why: 'There is nothing to be asked here.' });
  }
  const bytes = Buffer.from(body);
  const tooLarge = bytes.length > question.limit(JSON_TYPE);
  const { status, value } = await question.answer(host, {
    query: '',
    type: JSON_TYPE,
    body: tooLarge ? { ok: false, why: 'too large' } : { ok: true, bytes },
  });
  return replyOf(status, value);
}

function replyOf(status: number, value: object): Reply {
  return { status, body: JSON.stringify(value) };
}

/** A window may already be closing when there is a message for it. */
function post(contents: WebContents, channel: string, ...words: readonly unknown[]): void {
  if (!contents.isDestroyed() && !contents.isCrashed()) contents.send(channel, ...words);
}
