/*
 * How the program comes to its end: by somebody who wants out and is asked, or by the system, which is not.
 * Either way the journal gets its last lines first.
 */

import { app, powerMonitor, type BrowserWindow } from 'electron';
import type { WayOut } from './way-out.ts';

export interface Endings {
  readonly wayOut: WayOut;
  /** Resolves when all that can be is written. */
  end(): Promise<void>;
  /** Writes what can be written at once. */
  endNow(): void;
}

/** Electron must be ready: its own handlers of signals, which would only quit, are in place by then and give way. */
export function listenForEndings({ wayOut, end }: Endings): void {
  let ended: Promise<void> | null = null;
  app.on('before-quit', (event) => {
    event.preventDefault();
    if (wayOut.mayLeave()) ended ??= end().finally(() => app.exit(0));
  });
  const leave = (): void => {
    wayOut.open();
    app.quit();
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, leave);
  // Linux and macOS: prevented, the system waits for the program a little (documentation of the event).
  powerMonitor.on('shutdown', (event?: { preventDefault(): void }) => {
    event?.preventDefault();
    leave();
  });
}

/** Windows tells its windows that the session ends, and no `before-quit` comes (documentation of both): there is time for one write. */
export function watchSessionEnd(window: BrowserWindow, { wayOut, endNow }: Endings): void {
  window.on('session-end', () => {
    wayOut.open();
    endNow();
    app.quit();
  });
}
