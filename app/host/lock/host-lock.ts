/*
 * One host at a time on a data folder. Its lock is a file with a counter, the beat, which the host raises as long as
 * it runs. So hosts that cannot see each other's processes (in containers, or on machines that share a folder) can
 * still see each other. No clocks are compared: a lock is abandoned if the host that wants it has seen no beat for six
 * seconds. If the system says that the holder has ended, it is abandoned at once.
 *
 * A host may be paused for longer than that and wake up when another has its lock. It checks the lock before every
 * write, and then writes no more. The file it still has open is not the one that the other host writes (see RunFile).
 */

import { randomUUID } from 'node:crypto';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Millis } from '../../core/units.ts';
import { isSameBoot } from './boot.ts';
import { codeOf } from '../journal/disk.ts';
import { holderOf, lockText, makeLock, readLock, removeAbandoned, writeBeat, type Holder } from './lock-file.ts';
import { systemFacts, type ProcessFacts } from './process-facts.ts';
import type { Guard } from '../journal/run-file.ts';
import type { Timer, Timers } from '../time/timers.ts';

export type LockTaken =
  /** `silent`: the lock was taken from a host that had stopped beating but may still be running. */
  | { readonly ok: true; readonly lock: HostLock; readonly silent: boolean }
  /** Another host has it. pid: its process number, if the file says. */
  | { readonly ok: false; readonly pid: number | null };

export const BEAT_EVERY: Millis = 1000;

/** A lock is checked this often, and so many times, before it counts as abandoned: for six seconds, which is six beats. */
export const LOOK_EVERY: Millis = 500;
export const LOOKS = 12;

/** How often to try. While a lock is being taken, others give it up or leave it abandoned a few times at most. */
const ATTEMPTS = 20;

/** Takes the lock of a folder, which must exist. Rejects if the disk refuses. */
export async function takeHostLock(
  folder: string,
  timers: Timers,
  facts: ProcessFacts = systemFacts(),
  token: string = randomUUID(),
): Promise<LockTaken> {
  const path = join(folder, 'host.lock');
  const lock = new HostLock(folder, timers, facts, token);
  let silent = false;
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    // Checked before making one: even on a disk that refuses new files, another host there must be noticed.
    const text = lookedAt(path);
    if (text === UNREADABLE) return { ok: false, pid: null };
    if (text === null) {
      if (!lock.make()) continue;
      lock.beat();
      return { ok: true, lock, silent };
    }
    const holder = holderOf(text);
    const known = holder ? knownOf(holder, facts) : 'nothing';
    if (known === 'there') return { ok: false, pid: holder!.pid };
    if (known === 'nothing') {
      const seen = await watched(path, text, timers);
      if (seen === 'beats') return { ok: false, pid: holder && holder.pid };
      if (seen === 'changed') continue;
      silent = true;
    }
    removeAbandoned(path, text, token);
  }
  return { ok: false, pid: null };
}

/** A lock that the disk refuses now. It is made as soon as the disk allows, if no other host has made one. */
export function lockToCome(folder: string, timers: Timers): HostLock {
  const lock = new HostLock(folder, timers, systemFacts(), randomUUID());
  lock.beat();
  return lock;
}

/** A lock that is held. Only its holder may write in the folder. */
export class HostLock implements Guard {
  private readonly folder: string;
  private readonly path: string;
  private readonly timers: Timers;
  private readonly mine: Holder;
  private readonly listeners: (() => void)[] = [];
  private lost = false;
  private released = false;
  private beats = 0;
  private timer: Timer | null = null;

  constructor(folder: string, timers: Timers, facts: ProcessFacts, token: string) {
    const { pid, boot, space } = facts;
    this.folder = folder;
    this.path = join(folder, 'host.lock');
    this.timers = timers;
    this.mine = { pid, born: facts.birthOf(pid), boot, space, token };
  }

  /** Calls back once when another host has taken the folder; from then on nothing may be written there. */
  onLost(listener: () => void): void {
    this.listeners.push(listener);
    if (this.lost) listener();
  }

  check(): Promise<void> {
    return Promise.resolve().then(() => this.checkNow());
  }

  checkNow(): void {
    if (this.lost || this.released) throw new Error(TAKEN);
    const text = readLock(this.path);
    const holder = holderOf(text ?? '');
    if (holder?.token === this.mine.token) return;
    // Gone with its folder, removed or overwritten by hand: no other host has taken it.
    if (text !== null && !holder) removeAbandoned(this.path, text, this.mine.token);
    if (!holder && this.make()) return;
    // Another host may have moved it away and put it back meanwhile.
    if (!this.isMine()) this.lose();
  }

  /** Makes the lock file; false if there is one already. */
  make(): boolean {
    mkdirSync(this.folder, { recursive: true, mode: 0o700 });
    return makeLock(this.path, lockText(this.mine), this.mine.token);
  }

  /** Beats from now on. */
  beat(): void {
    this.timer = this.timers.set(() => {
      void this.beatOnce().finally(() => {
        if (!this.lost && !this.released) this.beat();
      });
    }, BEAT_EVERY);
  }

  /** Removes the lock, unless another host has taken it from us. */
  release(): void {
    if (this.timer) this.timers.clear(this.timer);
    this.released = true;
    try {
      if (this.isMine()) rmSync(this.path);
    } catch {
      // If it cannot be removed, it stops beating, which does the same.
    }
  }

  private isMine(): boolean {
    return holderOf(readLock(this.path) ?? '')?.token === this.mine.token;
  }

  private async beatOnce(): Promise<void> {
    try {
      if (!(await writeBeat(this.path, this.mine.token, ++this.beats))) this.checkNow();
    } catch {
      // The disk may accept the next beat; and before every write it is checked that the lock is still ours.
    }
  }

  private lose(): never {
    this.lost = true;
    for (const listener of this.listeners) listener();
    throw new Error(TAKEN);
  }
}

const TAKEN = 'another Lanecall has the folder';

const UNREADABLE = Symbol('unreadable');

/** The text of a lock; null if there is none. A lock that may not be read still belongs to somebody. */
function lookedAt(path: string): string | null | typeof UNREADABLE {
  try {
    return readLock(path);
  } catch (error) {
    if (['EACCES', 'EPERM'].includes(codeOf(error))) return UNREADABLE;
    throw error;
  }
}

/** What the system can say at once about a holder. */
function knownOf({ pid, born, boot, space }: Holder, facts: ProcessFacts): 'there' | 'gone' | 'nothing' {
  // Programs from before the beats wrote neither `boot` nor `space`.
  const isOurList = space === facts.space || boot === '';
  if (born !== null && born === facts.birthOf(pid)) return isOurList ? 'there' : 'nothing';
  if (space === null || space !== facts.space || !isSameBoot(boot, facts.boot)) return 'nothing';
  if (!facts.isRunning(pid)) return 'gone';
  // A process has that number. If the system says when it began, it is a later one.
  return born !== null ? 'gone' : 'nothing';
}

async function watched(path: string, text: string, timers: Timers): Promise<'beats' | 'changed' | 'silent'> {
  for (let look = 0; look < LOOKS; look++) {
    await new Promise<void>((resolve) => timers.set(resolve, LOOK_EVERY));
    const now = readLock(path);
    if (now === text) continue;
    const holder = holderOf(text);
    return holder && holderOf(now ?? '')?.token === holder.token ? 'beats' : 'changed';
  }
  return 'silent';
}
