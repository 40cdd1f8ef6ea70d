/*
 * What the system says of this process and of others, as far as it does: enough to know at once that the
 * holder of a lock is there, or has ended.
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
  /** When a process began; null where the system does not say, or once it has ended. */
  birthOf(pid: number): string | null;
  isRunning(pid: number): boolean;
}

export function systemFacts(): ProcessFacts {
  return { pid: process.pid, boot: thisBoot(), space: spaceOfProcesses(), birthOf, isRunning };
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

/**
 * Linux has many lists of processes on one machine, and a number means nothing outside its own. Elsewhere there
 * is one a machine, but machines that were switched on together have the same start.
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
    // EPERM: somebody else's, but there.
    return codeOf(error) === 'EPERM';
  }
}
