/*
 * What the windows of the desktop program share with its main process: the names of their channels, and the functions
 * that a page finds on `window`. Deck messages are the same text as on the network; requests that a page would make
 * by HTTP go through `ask`.
 */

/** The name under which a page finds its bridge on `window`; a browser has none. */
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
  /** Opens a connection to the host; nothing more is heard from an earlier one. */
  connect(message: (text: string) => void, closed: () => void): void;
  /** Sends a deck message over the open connection. */
  say(text: string): void;
  hangUp(): void;
  /** Calls back whenever the machine has woken up. */
  onWoken(call: () => void): void;
}

/** What the coach's window has in addition. */
export interface CoachBridge extends WindowBridge {
  /** Like a request over HTTP. Rejects if the main process refuses the request. */
  ask(method: string, path: string, body: string): Promise<Reply>;
  /** Calls back with every session file that cannot simply be opened, so that the coach sees it. */
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
  /** null if it could not be read. */
  readonly text: string | null;
  readonly lanesText: string | null;
  /** Why it was not opened directly. */
  readonly why: string;
}
