/*
 * What the windows of the desktop program and its main process share: the names of the channels between
 * them, and the few functions that a window's page finds on `window`. Deck messages are those of the
 * network, as text; what a page would ask of a host by HTTP it asks here.
 */

/** Under this name a page finds its bridge; there is none in a browser. */
export const BRIDGE = 'lanecallWindow';

/** From a window to the main process (`connect`, `say`, `hangUp`, `ask`, `painted`) and back (the others). */
export const CHANNELS = {
  connect: 'deck:connect',
  say: 'deck:say',
  hangUp: 'deck:hang-up',
  ask: 'deck:ask',
  painted: 'window:painted',
  heard: 'deck:heard',
  closed: 'deck:closed',
  woken: 'deck:woken',
  sessionFile: 'deck:session-file',
  key: 'window:key',
} as const;

/** What the page of every window has. */
export interface WindowBridge {
  /** Opens a connection to the host; of one that was open nothing more is heard. */
  connect(message: (text: string) => void, closed: () => void): void;
  /** Sends a deck message over the open connection. */
  say(text: string): void;
  hangUp(): void;
  /** Calls whenever the machine has woken up. */
  onWoken(call: () => void): void;
}

/** What the coach's window has besides. */
export interface CoachBridge extends WindowBridge {
  /** As a request over HTTP. Rejects where the main process refuses to hear it. */
  ask(method: string, path: string, body: string): Promise<Reply>;
  /** Calls with every session file that cannot simply be run, so that the coach sees it. */
  onSessionFile(call: (file: SessionFile) => void): void;
}

/** A key that was pressed on another window, as `KeyboardEvent` has it. */
export interface PressedKey {
  readonly key: string;
  readonly code: string;
  readonly shiftKey: boolean;
  readonly repeat: boolean;
}

export interface Reply {
  readonly status: number;
  /** JSON. */
  readonly body: string;
}

/** A file that somebody has opened with the program. */
export interface SessionFile {
  readonly name: string;
  /** null where it could not be read. */
  readonly text: string | null;
  readonly lanesText: string | null;
  /** Why it is not running already. */
  readonly why: string;
}
