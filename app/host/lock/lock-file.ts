/*
 * The file of a lock, made only with what every system and shared folder can do. Only one host can make it, and only
 * one can move it away. Its holder writes a beat into it, in place.
 */

import {
  closeSync,
  constants,
  fstatSync,
  linkSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { open } from 'node:fs/promises';
import { codeOf } from '../journal/disk.ts';

/** The process that has a lock. */
export interface Holder {
  readonly pid: number;
  /** Tells apart processes with the same number; null if the system does not say. */
  readonly born: string | null;
  /** The start of the machine in which that number holds. */
  readonly boot: string;
  /** The list of processes within that start; null if the system does not say. */
  readonly space: string | null;
  /** A name that no other holder has, ever. */
  readonly token: string;
}

/** How many digits the beat has. They are at the end of the file, so that they can be overwritten in place. */
const BEAT_DIGITS = 8;

const BEHIND_BEAT = '"}';

/** The text of a new lock file. */
export function lockText(holder: Holder): string {
  return `${JSON.stringify(holder).slice(0, -1)},"beat":"${'0'.repeat(BEAT_DIGITS)}${BEHIND_BEAT}`;
}

/** The holder that a lock's text names; null if it names none. `boot` is empty in locks from before the beats. */
export function holderOf(text: string): Holder | null {
  try {
    const value = JSON.parse(text) as Partial<Record<keyof Holder, unknown>> | null;
    const { pid, born, boot, space, token } = value ?? {};
    if (typeof pid !== 'number' || !Number.isSafeInteger(pid)) return null;
    const textOr = <Other>(field: unknown, other: Other): string | Other => (typeof field === 'string' ? field : other);
    return {
      pid,
      born: textOr(born, null),
      boot: textOr(boot, ''),
      space: textOr(space, null),
      token: textOr(token, ''),
    };
  } catch {
    return null;
  }
}

/** The text of a lock file; null if there is none. Throws if it cannot be read or is not an ordinary file. */
export function readLock(path: string): string | null {
  let file: number;
  try {
    // If it is a pipe, do not wait for its other end.
    file = openSync(path, constants.O_RDONLY | (process.platform === 'win32' ? 0 : constants.O_NONBLOCK));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
  try {
    if (!fstatSync(file).isFile()) throw Object.assign(new Error('no file'), { code: 'NOT_ORDINARY' });
    return readFileSync(file, 'utf8');
  } finally {
    closeSync(file);
  }
}

/** Makes a lock file; false if there is one already. Throws if the disk refuses. */
export function makeLock(path: string, text: string, token: string): boolean {
  // Written under another name first, so that there is never a lock without its holder's name.
  const own = `${path}.${token}`;
  try {
    writeFileSync(own, text);
  } catch (error) {
    removeIfThere(own);
    throw error;
  }
  try {
    linkSync(own, path);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    // The file systems of memory cards and sticks have no links.
    return makeWithoutLink(path, text);
  } finally {
    rmSync(own, { force: true });
  }
}

function makeWithoutLink(path: string, text: string): boolean {
  try {
    writeFileSync(path, text, { flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    // The file was made but not filled, because the disk is full.
    removeIfThere(path);
    throw error;
  }
}

/**
 * Removes an abandoned lock. Two hosts may find it abandoned, and the slower one must not remove the new lock of the
 * faster one. So the file is moved away first, which only one host can do, and put back if it is another lock.
 */
export function removeAbandoned(path: string, text: string, token: string): void {
  if (readLock(path) !== text) return;
  const away = `${path}.${token}.old`;
  try {
    renameSync(path, away);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return;
    throw error;
  }
  const moved = readLock(away);
  if (moved !== null && moved !== text) makeLock(path, moved, token);
  rmSync(away, { force: true });
}

/** Writes a beat if the file is still the holder's own; false if it is another's, or gone. */
export async function writeBeat(path: string, token: string, beat: number): Promise<boolean> {
  let file;
  try {
    file = await open(path, 'r+');
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return false;
    throw error;
  }
  try {
    const bytes = await file.readFile();
    if (holderOf(bytes.toString('utf8'))?.token !== token) return false;
    const digits = String(beat % 10 ** BEAT_DIGITS).padStart(BEAT_DIGITS, '0');
    await file.write(digits, bytes.length - BEAT_DIGITS - BEHIND_BEAT.length);
    return true;
  } finally {
    await file.close();
  }
}

/** Removes a file that could not be written. */
function removeIfThere(path: string): void {
  try {
    rmSync(path);
  } catch {
    // Why it could not be written is what matters.
  }
}
