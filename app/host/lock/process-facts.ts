/*
 * What the system can say about this process and others. It tells at once whether the holder of a lock is still
 * running or has ended; on some systems it cannot.
 */

import { readFileSync, readlinkSync } from 'node:fs';
import { hostname } from 'node:os';
import { thisBoot } from './boot.ts';
import { codeOf } from '../journal/disk.ts';

export interface ProcessFacts {
  readonly pid: number;
  /** As `Holder`. */
  readonly boot: string;
  readonly space: string | null;
  /** When a process began; null if the system does not say, or if it has ended. */
  birthOf(pid: number): string | null;
  isRunning(pid: number): boolean;
}

export function systemFacts(): ProcessFacts {
  return { pid: process.pid, boot: thisBoot(), space: spaceOfProcesses(), birthOf, isRunning };
}

/** When a process began: the start of the machine and the clock ticks since then, on Linux; null elsewhere, or if it has ended. */
export function birthOf(pid: number): string | null {
  try {
    const status = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name in brackets may hold spaces; the state comes after it, the start time 19 fields later.
    const fields = status.slice(status.lastIndexOf(')') + 2).split(' ');
    // Z: it has ended and is still in the list because nobody has collected its status.
    return fields[0] === 'Z' ? null : `${thisBoot()} ${fields[19]}`;
  } catch {
    return null;
  }
}

/**
 * Names the list of processes that this process is in. Linux can have many lists on one machine, and a process number
 * holds only in its own. Other systems have one a machine, so the machine's name tells it.
 */
function spaceOfProcesses(): string | null {
  if (process.platform !== 'linux') return hostname();
  try {
    return readlinkSync('/proc/self/ns/pid');
  } catch {
    return null;
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // EPERM: it is another user's, but it is running.
    return codeOf(error) === 'EPERM';
  }
}
