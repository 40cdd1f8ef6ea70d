/*
 * Whether this page is in a window of the desktop program, and then its bridge to the program; the one
 * place where it is decided what carries messages and questions.
 */

import { BRIDGE, type CoachBridge, type SessionFile, type WindowBridge } from '../../../app/wire/window-bridge.ts';
import { LONGEST_PAUSE, socketCarrier, type Carrier } from './carrier.ts';

export type { SessionFile };

export interface HostReply {
  readonly status: number;
  readonly body: string;
}

/** The program's own channel in its windows, a WebSocket to the host that the page came from elsewhere. */
export function ownCarrier(): Carrier {
  const bridge = ownBridge();
  return bridge ? windowCarrier(bridge) : socketCarrier(`ws://${location.host}/deck`);
}

export type AskHost = (method: 'PUT' | 'POST', path: string, body: string) => Promise<HostReply>;

let askBySocket: AskHost | null = null;

/** Questions go this way from now on: a page that was let in asks by its own socket. Null: by HTTP. */
export function askBy(ask: AskHost | null): void {
  askBySocket = ask;
}

/** Asks the host for what is no deck message; `body` is JSON. Rejects where the host does not answer. */
export async function askHost(method: 'PUT' | 'POST', path: string, body: string): Promise<HostReply> {
  if (askBySocket) return askBySocket(method, path, body);
  const bridge = ownBridge();
  if (bridge) {
    if (!('ask' in bridge)) throw new Error('Only the coach asks.');
    return bridge.ask(method, path, body);
  }
  const response = await fetch(path, { method, headers: { 'Content-Type': 'application/json' }, body });
  const reply = { status: response.status, body: await response.text() };
  // Sharing began while this was on its way: it was refused for want of a key that the page has by now.
  return reply.status === 403 && asksBySocket() ? askHost(method, path, body) : reply;
}

function asksBySocket(): boolean {
  return askBySocket !== null;
}

/** Where the host is, for people who stand before another screen; null in a window of the desktop program. */
export function hostAddress(): string | null {
  return ownBridge() ? null : location.origin;
}

/** Calls whenever the desktop program has noticed that the machine woke up, never in a browser; returns what ends that. */
export function onWoken(call: () => void): () => void {
  let wanted = true;
  ownBridge()?.onWoken(() => {
    if (wanted) call();
  });
  return () => {
    wanted = false;
  };
}

let fileListener: ((file: SessionFile) => void) | null = null;
/** Came before anybody listened. */
let earlyFile: SessionFile | null = null;

/** Calls with session files that the program was given, there or at its start; the latest listener hears them. */
export function onSessionFile(call: (file: SessionFile) => void): void {
  const bridge = ownBridge();
  if (bridge && 'onSessionFile' in bridge) bridge.onSessionFile(call);
  fileListener = call;
  const file = earlyFile;
  earlyFile = null;
  if (file) call(file);
}

/** Asks, in a browser, for the session file that the program was started with; the first window that asks has it. */
export async function askForSessionFile(): Promise<void> {
  if (ownBridge()) return;
  try {
    const { status, body } = await askHost('POST', '/session-file', '{}');
    const file = status === 200 ? (JSON.parse(body) as { readonly file: SessionFile | null }).file : null;
    if (file && fileListener) fileListener(file);
    else earlyFile = file;
  } catch {
    // Without an answer there is none; what was written here before stands in the editor.
  }
}

/** A main process that is held up, by a menu held open for one, is slow and not gone. In ms. */
const PATIENCE = 60_000;

export function windowCarrier(bridge: WindowBridge): Carrier {
  return {
    patience: PATIENCE,
    longestPause: LONGEST_PAUSE.here,
    connect(heard) {
      let over = false;
      bridge.connect(
        (text) => {
          if (!over) heard.message(text);
        },
        () => {
          if (over) return;
          over = true;
          heard.closed();
        },
      );
      // The link must have its connection in hand before it hears that it is open.
      void Promise.resolve().then(() => {
        if (!over) heard.opened();
      });
      return {
        send(message) {
          if (!over) bridge.say(message);
        },
        close() {
          if (over) return;
          over = true;
          bridge.hangUp();
        },
      };
    },
  };
}

function ownBridge(): WindowBridge | CoachBridge | null {
  return (window as { readonly [BRIDGE]?: WindowBridge | CoachBridge })[BRIDGE] ?? null;
}
