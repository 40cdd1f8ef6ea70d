/*
 * The host as it stands on a data folder: alone there, with its journal on the disk and the run that was
 * cut off, if there is one. What the disk refuses does not keep the clock from running; the coach is told.
 */

import { randomUUID } from 'node:crypto';
import { settle } from '../../core/run/settle.ts';
import type { Clock } from '../time/clock.ts';
import { thisBoot } from '../lock/boot.ts';
import { runsFolder } from '../lock/data-folder.ts';
import { DeckHost } from './deck-host.ts';
import { diskReason, systemDisk } from '../journal/disk.ts';
import type { FoundRun } from '../recovery/found-run.ts';
import { lockToCome, takeHostLock, type HostLock } from '../lock/host-lock.ts';
import { JournalFile } from '../journal/journal-file.ts';
import { recover } from '../recovery/recovery.ts';
import type { Timers } from '../time/timers.ts';

export type DeckOpening =
  | { readonly ok: true; readonly deck: OpenDeck }
  /** Another host is at work there. */
  | { readonly ok: false; readonly why: string };

export interface OpenDeck {
  readonly host: DeckHost;
  readonly journal: JournalFile;
  /** The title of the session whose run has come back and is not over; null where none has. */
  readonly cameBack: string | null;
  /** What was kept of each run that was left unattended, while the coach has not been told. */
  readonly unattended: readonly string[];
  /** Lets go of the folder when all that can be is written. */
  close(): Promise<void>;
}

/** In ms: so long the disk may take over the last lines when the program ends. */
const LAST_LINES = 1000;

/** `folder` is made where it is not there. Rejects only where the program is wrong. */
export async function openDeck(folder: string, clock: Clock, timers: Timers): Promise<DeckOpening> {
  const said: string[] = [];
  const taken = await takeLock(folder, timers, said);
  if (!taken)
    return {
      ok: false,
      why: `Another Lanecall is at work in ${folder}: end that one, or give another folder with --data.`,
    };
  const { lock, silent } = taken;
  const boot = thisBoot();
  const tell = (sentence: string | null): void => host.tell('record', sentence);
  const journal = new JournalFile({ disk: systemDisk, folder: runsFolder(folder), boot, timers, guard: lock, tell });
  const host: DeckHost = new DeckHost({ clock, timers, journal, newId: randomUUID });
  lock.onLost(() => host.recordLost(takenText(folder)));
  const moment = clock.instant();
  const recovery = await recover({ disk: systemDisk, folder: runsFolder(folder), boot, moment });
  const { found, unattended } = recovery;
  if (found) journal.takeUp(found.run, found.file, silent);
  await host.comeBack({ ...recovery, said: [...recovery.said, ...said] }, moment);
  const close = async (): Promise<void> => {
    await host.endUnbegun();
    await atMost(journal.end(), timers);
    lock.release();
  };
  return { ok: true, deck: { host, journal, cameBack: titleOfUnfinished(found), unattended: unattended.runs, close } };
}

function titleOfUnfinished(found: FoundRun | null): string | null {
  if (!found || settle(found.state, Math.floor(found.position.at)).phase === 'done') return null;
  return found.state.plan.session.title ?? 'a session';
}

/** Null where another host has it. */
async function takeLock(
  folder: string,
  timers: Timers,
  said: string[],
): Promise<{ readonly lock: HostLock; readonly silent: boolean } | null> {
  try {
    await systemDisk.makeFolder(folder);
    const taken = await takeHostLock(folder, timers);
    return taken.ok ? taken : null;
  } catch (error) {
    said.push(
      `The folder ${folder} cannot be written to (${diskReason(error)}): a run may not survive a crash, ` +
        'and a second Lanecall there would not be noticed. Mend that, or start with another folder by --data.',
    );
    return { lock: lockToCome(folder, timers), silent: false };
  }
}

function takenText(folder: string): string {
  return (
    `Another Lanecall has taken over ${folder}, because this one did not move for a while: nothing of what is done ` +
    'here is kept any more. Close one of the two, and go on in the other.'
  );
}

function atMost(work: Promise<void>, timers: Timers): Promise<void> {
  return new Promise((resolve) => {
    const timer = timers.set(resolve, LAST_LINES);
    work
      .catch(() => undefined)
      .finally(() => {
        timers.clear(timer);
        resolve();
      })
      .catch(() => undefined);
  });
}
