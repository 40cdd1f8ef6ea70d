/*
 * One host at a time on a data folder. Its lock is a file with a beat, which goes on as long as the host does,
 * so that hosts that cannot see each other's processes (in containers, or on machines that share a folder) see
 * that. No clock is compared: a lock is abandoned when whoever waits for it has not seen it beat for so long. Where
 * the system says that the holder has ended, it is abandoned at once.
 *
 * A host may be stopped for longer than that, and wake up when another has its lock: it looks at the lock
 * before every write, and writes no more. What it had open by then is not what the other writes to (see RunFile).
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
  /** `silent`: it was another's that had not beaten for so long, and may not have ended. */
  | { readonly ok: true; readonly lock: HostLock; readonly silent: boolean }
  /** Another host has it: its process number, if the file says. */
  | { readonly ok: false; readonly pid: number | null };

/** In ms. */
export const BEAT_EVERY: Millis = 1000;

/** So often, and so many times, a lock is looked at before it counts as abandoned: for six seconds, or six beats. */
export const LOOK_EVERY: Millis = 500;
export const LOOKS = 12;

/** A lock is given up or found abandoned a few times at most while it is being taken. */
const ATTEMPTS = 20;

/** Takes the lock of a folder that is there. Rejects where the disk refuses. */
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
    // Looked at first: a disk that refuses every new file must not hide the host that is at work on it.
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

/** A lock that the disk does not let a host have now; it is made as soon as it can be, where nobody else has. */
export function lockToCome(folder: string, timers: Timers): HostLock {
  const lock = new HostLock(folder, timers, systemFacts(), randomUUID());
  lock.beat();
  return lock;
}

/** A lock that is held, and the right to write that goes with it. */
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

  /** Called back once when another host has taken the folder; nothing may be written there from then on. */
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
    const holder = text === null ? null : holderOf(text);
    if (holder?.token === this.mine.token) return;
    // Gone with its folder, removed or written over by hand: nobody has taken it.
    if (text !== null && !holder) removeAbandoned(this.path, text, this.mine.token);
    if (!holder && this.make()) return;
    if (holderOf(readLock(this.path) ?? '')?.token !== this.mine.token) this.lose();
  }

  /** False where there is one. */
  make(): boolean {
    mkdirSync(this.folder, { recursive: true });
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

  /** Ours alone: a lock that was taken from us is not ours to give up. */
  release(): void {
    if (this.timer) this.timers.clear(this.timer);
    if (this.released) return;
    this.released = true;
    try {
      if (holderOf(readLock(this.path) ?? '')?.token === this.mine.token) rmSync(this.path, { force: true });
    } catch {
      // A lock that cannot be removed any more stops beating, which is as good.
    }
  }

  private async beatOnce(): Promise<void> {
    try {
      if (!(await writeBeat(this.path, this.mine.token, ++this.beats)) && !this.released) this.checkNow();
    } catch {
      // What the disk refuses now it may do the next time; whether the lock is still ours is looked at before every write.
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

/** One that may not be read is somebody's all the same. */
function lookedAt(path: string): string | null | typeof UNREADABLE {
  try {
    return readLock(path);
  } catch (error) {
    if (['EACCES', 'EPERM'].includes(codeOf(error))) return UNREADABLE;
    throw error;
  }
}

/** What the system says of a holder at once. */
function knownOf({ pid, born, boot, space }: Holder, facts: ProcessFacts): 'there' | 'gone' | 'nothing' {
  // Programs that had no beats named no start, and no list.
  const isOurList = space === facts.space || boot === '';
  if (born !== null && born === facts.birthOf(pid)) return isOurList ? 'there' : 'nothing';
  if (space === null || space !== facts.space || !isSameBoot(boot, facts.boot)) return 'nothing';
  if (!facts.isRunning(pid)) return 'gone';
  // A process of that number is there: a later one, where the system says when it began.
  return born !== null ? 'gone' : 'nothing';
}

async function watched(path: string, text: string, timers: Timers): Promise<'beats' | 'changed' | 'silent'> {
  for (let look = 0; look < LOOKS; look++) {
    await new Promise<void>((resolve) => timers.set(resolve, LOOK_EVERY));
    const now = readLock(path);
    if (now === text) continue;
    const isSameHolder = now !== null && holderOf(text) !== null && holderOf(now)?.token === holderOf(text)!.token;
    return isSameHolder ? 'beats' : 'changed';
  }
  return 'silent';
}
