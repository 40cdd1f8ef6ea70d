/*
 * What cannot be used of a journal is kept in a file beside it, for anyone who wants to look, and never overwritten.
 */

import type { Disk } from './disk.ts';

/** Writes the bytes to a new file beside the journal, safe on the disk; the journal is not touched. */
export async function setTornAside(disk: Disk, path: string, bytes: Uint8Array): Promise<void> {
  await disk.replace(await freeName(disk, path), bytes);
}

/** Cuts a journal to its undamaged part, after the rest is safe. */
export async function cutOffTorn(disk: Disk, path: string, length: number, torn: Uint8Array): Promise<void> {
  await setTornAside(disk, path, torn);
  const file = await disk.open(path);
  try {
    await file.truncate(length);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Renames files of which nothing can be used. */
export async function putAside(disk: Disk, paths: readonly string[]): Promise<void> {
  await disk.move(await Promise.all(paths.map(async (from) => ({ from, to: await freeName(disk, from) }))));
}

async function freeName(disk: Disk, path: string): Promise<string> {
  for (let number = 1; ; number++) {
    const name = number === 1 ? `${path}.torn` : `${path}.${number}.torn`;
    if (!(await disk.exists(name))) return name;
  }
}
