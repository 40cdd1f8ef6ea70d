/*
 * The first line of a journal and its last bytes, read without the rest: enough to list a run. It is read at once, in
 * one go, because a thousand small reads that each wait their turn take longer than the disk.
 */

import { readSync } from 'node:fs';
import { withFileNow } from '../journal/disk.ts';

export interface JournalEnds {
  /** Without its newline; null where it is not whole. */
  readonly first: Uint8Array | null;
  readonly last: Uint8Array;
}

const FIRST = 4096;
const LAST = 1024;

/** The longest first line that is read, in bytes: more than a session of the largest size takes. */
const LONGEST_FIRST = 4 * 1024 * 1024;

const NEWLINE = 0x0a;

/** Throws with the system's reason. */
export function readEnds(path: string): JournalEnds {
  return withFileNow(path, (file, length) => {
    return { first: firstLine(file), last: bytesAt(file, Math.max(0, length - LAST), LAST) };
  });
}

function firstLine(file: number): Uint8Array | null {
  for (let length = FIRST; length <= LONGEST_FIRST; length *= 4) {
    const bytes = bytesAt(file, 0, length);
    const end = bytes.indexOf(NEWLINE);
    if (end >= 0) return bytes.subarray(0, end);
    if (bytes.length < length) return null;
  }
  return null;
}

function bytesAt(file: number, at: number, most: number): Uint8Array {
  const buffer = Buffer.alloc(most);
  let length = 0;
  while (length < most) {
    const read = readSync(file, buffer, length, most - length, at + length);
    if (read === 0) break;
    length += read;
  }
  return buffer.subarray(0, length);
}
