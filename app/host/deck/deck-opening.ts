/*
 * Opens a host on a data folder: takes the lock, sets up the journal, and brings back the run that was cut off, if
 * there is one. If the disk refuses any of that, the clock runs all the same and the coach is told.
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
import { Library } from '../library/library.ts';
import { JournalFile } from '../journal/journal-file.ts';
import { recover } from '../recovery/recovery.ts';
import { finishDeletion } from '../records/deletion/deletion.ts';
import { Records } from '../records/records.ts';
import { keepScreens } from '../screens/screens-file.ts';
import { openDoorBook, type OpenDoorBook } from '../sharing/door-book.ts';
import { keepSharing, type KeptSharing } from '../sharing/address/kept-sharing.ts';
import { Squads } from '../squads/squads.ts';
import type { Timers } from '../time/timers.ts';

export type DeckOpening =
  | { readonly ok: true; readonly deck: OpenDeck }
  /** Another host is using the folder. */
  | { readonly ok: false; readonly why: string };

export interface OpenDeck {
  readonly host: DeckHost;
  readonly journal: JournalFile;
  readonly library: Library;
  readonly records: Records;
  readonly squads: Squads;
  /** Who may come in from the network. */
  readonly doorBook: OpenDoorBook;
  readonly keptSharing: KeptSharing;
  /** The run that has come back; null for none. */
  readonly found: FoundRun | null;
  /** The title of the session whose run has come back and is not over; null for none. */
  readonly cameBack: string | null;
  /** A sentence for each run that was left unattended, until the coach has read it. */
  readonly unattended: readonly string[];
  /** Writes what can still be written, then gives up the folder. */
  close(): Promise<void>;
}

/** In ms: how long to wait for the disk to write the last lines when the program ends. */
const LAST_LINES = 1000;

/** Opens a host on `folder`, which is made if it does not exist. Rejects only for an error of the program. */
export async function openDeck(folder: string, clock: Clock, timers: Timers): Promise<DeckOpening> {
  const said: string[] = [];
  const taken = await takeLock(folder, timers, said);
  if (!taken)
    return {
      ok: false,
      why: `Another Lanecall is using ${folder}: end that one, or name another folder with --data.`,
    };
  const { lock, silent } = taken;
  const boot = thisBoot();
  const tell = (sentence: string | null): void => host.tell('record', sentence);
  const journal = new JournalFile({ disk: systemDisk, folder: runsFolder(folder), boot, timers, guard: lock, tell });
  const host: DeckHost = new DeckHost({ clock, timers, journal, newId: randomUUID });
  lock.onLost(() => host.recordLost(takenText(folder)));
  // Before any journal is open.
  const unfinished = await finishDeletion({ disk: systemDisk, data: folder, guard: lock });
  if (unfinished !== null) said.push(unfinished);
  const moment = clock.instant();
  const recovery = await recover({ disk: systemDisk, folder: runsFolder(folder), boot, moment });
  const { found, unattended } = recovery;
  if (found) journal.takeUp(found.run, found.file, silent);
  const tellOfScreens = (sentence: string | null): void => host.tell('screens', sentence);
  const screens = await keepScreens(host.screenBook, { disk: systemDisk, folder, guard: lock, tell: tellOfScreens });
  if (screens.said !== null) said.push(screens.said);
  const tellOfDoor = {
    devices: (sentence: string | null): void => host.tell('devices', sentence),
    visitors: (sentence: string | null): void => host.tell('visitors', sentence),
  };
  const doorBook = await openDoorBook({ disk: systemDisk, folder, guard: lock, clock, timers, tell: tellOfDoor });
  said.push(...doorBook.said);
  const keptSharing = await keepSharing({ disk: systemDisk, folder, guard: lock });
  await host.comeBack({ ...recovery, said: [...recovery.said, ...said] }, moment);
  const close = async (): Promise<void> => {
    await host.endUnbegun();
    await atMost(
      Promise.all([journal.end(), screens.written(), doorBook.written()]).then(() => undefined),
      timers,
    );
    lock.release();
  };
  const library = new Library({ disk: systemDisk, folder, wall: () => clock.wall().epochMs });
  const records = new Records({
    disk: systemDisk,
    data: folder,
    guard: lock,
    now: () => clock.now(),
    opened: { id: () => host.current()?.id ?? null, letGo: () => host.letGo() },
    withLibraryStill: (task) => library.still(task),
  });
  host.touchBook.keepIn(records);
  const squads = new Squads({ disk: systemDisk, folder, guard: lock });
  const cameBack = titleOfUnfinished(found);
  const atDoor = { doorBook, keptSharing };
  const shelves = { library, squads, records };
  return {
    ok: true,
    deck: { host, journal, ...shelves, ...atDoor, found, cameBack, unattended: unattended.runs, close },
  };
}

function titleOfUnfinished(found: FoundRun | null): string | null {
  if (!found || settle(found.state, Math.floor(found.position.at)).phase === 'done') return null;
  return found.state.plan.session.title ?? 'a session';
}

/** Takes the lock of a folder; null if another host has it. */
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
        'and a second Lanecall there would not be noticed. Make it writable, or start with another folder by --data.',
    );
    return { lock: lockToCome(folder, timers), silent: false };
  }
}

function takenText(folder: string): string {
  return (
    `Another Lanecall has taken over ${folder}, because this one stood still for a while: nothing you do here is ` +
    'recorded any more. Close one of the two and go on in the other.'
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
