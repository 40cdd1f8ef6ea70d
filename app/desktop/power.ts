/*
 * Keeps the displays and the machine awake while a run is going. If the machine sleeps all the same, nothing is lost:
 * the journal gets a sign of life before, and the clock is checked after. The events are hints; without them the loop
 * would notice the missing time by itself.
 */

import { powerMonitor, powerSaveBlocker } from 'electron';
import { HOUR, SECOND, type Millis } from '../core/units.ts';
import { leavesOf } from '../core/run/record.ts';
import { settle } from '../core/run/settle.ts';
import type { Clock } from '../host/time/clock.ts';
import type { DeckHost } from '../host/deck/deck-host.ts';
import type { OpenRun } from '../host/deck/open-run.ts';
import type { JournalFile } from '../host/journal/journal-file.ts';
import type { Consumer } from '../host/time/loop.ts';

/** After so long without a leave or a command a run counts as forgotten, and the machine may sleep. */
const FORGOTTEN_AFTER: Millis = HOUR;

/** Whether a run wants the displays on at t: from its first command until it is done. */
export function keepsAwake({ state, commands }: Pick<OpenRun, 'state' | 'commands'>, t: Millis): boolean {
  const last = commands[commands.length - 1];
  if (!last) return false;
  const now = settle(state, t);
  if (now.phase === 'done') return false;
  const latest = leavesOf(now).reduce((found, { at }) => Math.max(found, at), last.at);
  return t - latest < FORGOTTEN_AFTER;
}

/** How often it is checked whether the run is still going, in ms. */
const LOOK_EVERY: Millis = 5 * SECOND;

/** Blocks sleep while a run is going. */
export function stayAwake(host: DeckHost, clock: Clock): Consumer & { stop(): void } {
  let blockers: readonly number[] = [];
  let lookedAt = -Infinity;

  const stop = (): void => {
    for (const id of blockers) powerSaveBlocker.stop(id);
    blockers = [];
  };
  const look = (): void => {
    lookedAt = clock.now();
    const run = host.current();
    const awake = run !== null && keepsAwake(run, Math.floor(lookedAt - run.openedAt));
    if (!awake) return stop();
    if (blockers.length > 0) return;
    // On Windows the one for displays is said not to keep the machine awake (electron/electron#12345).
    blockers = [powerSaveBlocker.start('prevent-display-sleep'), powerSaveBlocker.start('prevent-app-suspension')];
  };
  const stopListening = host.onChange(look);

  return {
    due: (from) => Math.max(from, lookedAt + LOOK_EVERY),
    take({ to }) {
      if (to >= lookedAt + LOOK_EVERY) look();
    },
    stop() {
      stopListening();
      stop();
    },
  };
}

/** A sign of life of the run that is going, on the disk when this returns. */
export function signNow(host: DeckHost, clock: Clock, journal: JournalFile): void {
  const run = host.current();
  const moment = clock.instant();
  if (run) journal.signNow({ run: run.id, at: Math.floor(moment.hostTime - run.openedAt), leaves: [], ...moment });
}

/** woken: called after the host has found out how long the machine slept. */
export function watchSleep(host: DeckHost, clock: Clock, journal: JournalFile, woken: () => void): void {
  powerMonitor.on('suspend', () => signNow(host, clock, journal));
  powerMonitor.on('resume', () => {
    clock.check();
    woken();
  });
}
