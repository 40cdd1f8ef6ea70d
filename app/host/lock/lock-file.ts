/*
 * The file of a lock, as every system and shared folder can do it: made by one alone, read as it stands, and
 * moved away by one alone. Who has it writes a beat into it, in place.
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

/** Who has a lock. */
export interface Holder {
  readonly pid: number;
  /** Tells processes of one number apart; null where the system does not say. */
  readonly born: string | null;
  /** Which start of which machine that number belongs to. */
  readonly boot: string;
  /** Within that, which list of processes; null where the system does not say. */
  readonly space: string | null;
  /** A name that no other holder ever has. */
  readonly token: string;
}

/** Digits of the beat: they stand at the end, so that they can be written over in place. */
const BEAT_DIGITS = 8;

const BEHIND_BEAT = '"}';

/** What stands in the file of a holder at first. */
export function lockText(holder: Holder): string {
  return `${JSON.stringify(holder).slice(0, -1)},"beat":"${'0'.repeat(BEAT_DIGITS)}${BEHIND_BEAT}`;
}

/** Whose a text is; null where it names nobody. `boot` is empty in a lock of a program that had no beats. */
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

/** null where there is none. Throws where it cannot be read, or is no ordinary file. */
export function readLock(path: string): string | null {
  let file: number;
  try {
    // Not waiting for the other end, should it be a pipe.
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

/** Whether it was made: not where there is one. Throws where the disk refuses. */
export function makeLock(path: string, text: string, token: string): boolean {
  // Under another name first, so that a lock is never there without its holder.
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
    // Disks of cameras and sticks have no links.
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
    // Made, and not filled: the disk is full.
    removeIfThere(path);
    throw error;
  }
}

/**
 * Two hosts may find the same lock abandoned, and the slower must not remove the faster one's new one: it is
 * moved away, which only one of them can do, and put back where it turns out to be another.
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

/** Writes a beat where the file is still the holder's own; false where it is another's, or gone. */
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

/** Of a file that could not be written: where the disk does not let it go either, the first reason is the one to be told. */
function removeIfThere(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    return;
  }
}
