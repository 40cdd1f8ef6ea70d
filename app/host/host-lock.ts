/*
 * One host at a time on a data folder: a file that names the process. It may be killed, so the file says
 * when that process began too, and a later one of the same number is not taken for it.
 */

import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { thisBoot } from './boot.ts';
import { codeOf } from './disk.ts';

export type HostLock =
  | { readonly ok: true; readonly release: () => void }
  /** Another host has it: its process number, if the file says. */
  | { readonly ok: false; readonly pid: number | null };

interface Holder {
  readonly pid: number;
  /** Tells processes of one number apart; null where the system does not say. */
  readonly born: string | null;
}

/** A lock is given up or found abandoned a few times at most while it is being taken. */
const ATTEMPTS = 20;

/** Takes the lock of a folder that is there. Throws where the disk refuses. */
export function takeHostLock(folder: string): HostLock {
  const path = join(folder, 'host.lock');
  const mine = JSON.stringify({ pid: process.pid, born: birthOf(process.pid) } satisfies Holder);
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    // Looked at first: a disk that refuses every new file must not hide the host that is at work on it.
    const text = textOf(path);
    if (text === null) {
      if (create(path, mine)) return { ok: true, release: () => release(path, mine) };
      continue;
    }
    const holder = holderOf(text);
    if (holder && isThere(holder)) return { ok: false, pid: holder.pid };
    removeAbandoned(path, text);
  }
  return { ok: false, pid: null };
}

/** When a process began: the start of the machine and the ticks since, as Linux keeps them; null elsewhere, or once it has ended. */
export function birthOf(pid: number): string | null {
  try {
    const status = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name in brackets may hold spaces; the state comes after it, the start time 19 fields later.
    const fields = status.slice(status.lastIndexOf(')') + 2).split(' ');
    // Ended, with nobody to collect its status: it stays in the list for as long as that.
    return fields[0] === 'Z' ? null : `${thisBoot()} ${fields[19]}`;
  } catch {
    return null;
  }
}

/** Made under another name first, so that a lock is never there without its holder. */
function create(path: string, content: string): boolean {
  const own = `${path}.${process.pid}`;
  try {
    writeFileSync(own, content);
  } catch (error) {
    removeIfThere(own);
    throw error;
  }
  try {
    linkSync(own, path);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    // Disks of cameras and sticks have no links.
    return createWithoutLink(path, content);
  } finally {
    rmSync(own, { force: true });
  }
}

function createWithoutLink(path: string, content: string): boolean {
  try {
    writeFileSync(path, content, { flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    // Made, and not filled: the disk is full.
    removeIfThere(path);
    throw error;
  }
}

/** Of a file that could not be written: where the disk does not let it go either, the first reason is the one to be told. */
function removeIfThere(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    return;
  }
}

function isThere({ pid, born }: Holder): boolean {
  try {
    process.kill(pid, 0);
  } catch (error) {
    // EPERM: somebody else's, but there.
    if (codeOf(error) !== 'EPERM') return false;
  }
  return born === null || born === birthOf(pid);
}

/**
 * Two hosts may find the same lock abandoned, and the slower must not remove the faster one's new one: it is
 * moved away, which only one of them can do, and put back where it turns out to be another.
 */
function removeAbandoned(path: string, text: string): void {
  const away = `${path}.${process.pid}.old`;
  try {
    renameSync(path, away);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return;
    throw error;
  }
  const moved = textOf(away);
  if (moved !== null && moved !== text) create(path, moved);
  rmSync(away, { force: true });
}

/** Ours alone: a lock that was taken from us is not ours to give up. */
function release(path: string, mine: string): void {
  if (textOf(path) === mine) rmSync(path, { force: true });
}

function textOf(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

function holderOf(text: string): Holder | null {
  try {
    const value = JSON.parse(text) as Partial<Holder> | null;
    if (!Number.isSafeInteger(value?.pid)) return null;
    return { pid: value!.pid!, born: typeof value!.born === 'string' ? value!.born : null };
  } catch {
    return null;
  }
}
