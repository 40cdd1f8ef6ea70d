/*
 * Every way the program ends. A person who quits during a run is asked first; a signal or the system's shutdown is
 * not. Either way the journal's last lines are written first.
 */

import { app, powerMonitor, type BrowserWindow } from 'electron';
import type { WayOut } from './way-out.ts';

export interface Endings {
  readonly wayOut: WayOut;
  /** Resolves once everything that can be written is on the disk. */
  end(): Promise<void>;
  /** Writes the most important before it returns. */
  endNow(): void;
}

/**
 * Call it once Electron is ready: by then Electron has set its own signal handlers, which only quit, and ours replace
 * them.
 */
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
  // On Linux and macOS `preventDefault` makes the system wait a little for the program (documentation of the event).
  powerMonitor.on('shutdown', (event?: { preventDefault(): void }) => {
    event?.preventDefault();
    leave();
  });
}

/**
 * At a logout Windows tells each window, and there is no `before-quit` (documentation of both events). There is time
 * for one write.
 */
export function watchSessionEnd(window: BrowserWindow, { wayOut, endNow }: Endings): void {
  window.on('session-end', () => {
    wayOut.open();
    endNow();
    app.quit();
  });
}
