/*
 * The files of the data folder, as a port, so that tests can have a disk that is full, slow or read-only.
 * Every call rejects with the system's reason where the disk refuses.
 */

import { constants, fdatasyncSync, writeSync, type Stats } from 'node:fs';
import { mkdir, open, readdir, rename, rm, stat, type FileHandle } from 'node:fs/promises';
import { dirname } from 'node:path';

export interface Disk {
  /** Makes a folder and those above it; content with one that is there. */
  makeFolder(path: string): Promise<void>;
  /** The names in a folder; none where it is not there. */
  list(path: string): Promise<readonly string[]>;
  exists(path: string): Promise<boolean>;
  read(path: string): Promise<Uint8Array>;
  /** The last so many bytes of a file, or all of a shorter one. */
  readEnd(path: string, bytes: number): Promise<Uint8Array>;
  /** Opens a file for writing, and makes it where it is not there. */
  open(path: string): Promise<DiskFile>;
  /** Puts a whole file in place of what is there: after a crash there is the old one or the new one. */
  replace(path: string, bytes: Uint8Array): Promise<void>;
  move(from: string, to: string): Promise<void>;
}

export interface DiskFile {
  /** All of the bytes, from a place in the file on. */
  write(bytes: Uint8Array, at: number): Promise<void>;
  /** The same, and on the disk itself when it returns; throws where the disk refuses. For a machine that is about to sleep. */
  writeNow(bytes: Uint8Array, at: number): void;
  truncate(length: number): Promise<void>;
  /** Resolves once what has been written is on the disk itself. */
  sync(): Promise<void>;
  close(): Promise<void>;
}

/** The machine's own. */
export const systemDisk: Disk = {
  makeFolder: async (path) => void (await mkdir(path, { recursive: true })),
  async list(path) {
    try {
      return await readdir(path);
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return [];
      throw error;
    }
  },
  async exists(path) {
    return (await statOf(path)) !== null;
  },
  read: (path) => withFile(path, constants.O_RDONLY, async (file) => file.readFile()),
  readEnd: (path, bytes) =>
    withFile(path, constants.O_RDONLY, async (file) => {
      const { size } = await file.stat();
      const length = Math.min(size, bytes);
      const { buffer, bytesRead } = await file.read(Buffer.alloc(length), 0, length, size - length);
      return buffer.subarray(0, bytesRead);
    }),
  async open(path) {
    const isNew = (await statOf(path)) === null;
    const file = await open(path, constants.O_RDWR | constants.O_CREAT, 0o600);
    if (isNew) await syncFolder(dirname(path));
    return diskFile(file);
  },
  async replace(path, bytes) {
    const fresh = `${path}.new`;
    try {
      await withFile(fresh, constants.O_WRONLY | constants.O_CREAT | constants.O_TRUNC, async (file) => {
        await file.writeFile(bytes);
        await file.sync();
      });
      await rename(fresh, path);
    } catch (error) {
      await rm(fresh, { force: true }).catch(() => undefined);
      throw error;
    }
    await syncFolder(dirname(path));
  },
  async move(from, to) {
    await rename(from, to);
    await syncFolder(dirname(to));
  },
};

function diskFile(file: FileHandle): DiskFile {
  return {
    async write(bytes, at) {
      let written = 0;
      while (written < bytes.length) {
        const { bytesWritten } = await file.write(bytes, written, bytes.length - written, at + written);
        written += bytesWritten;
      }
    },
    writeNow(bytes, at) {
      let written = 0;
      while (written < bytes.length) {
        written += writeSync(file.fd, bytes, written, bytes.length - written, at + written);
      }
      fdatasyncSync(file.fd);
    },
    truncate: (length) => file.truncate(length),
    sync: () => file.datasync(),
    close: () => file.close(),
  };
}

async function withFile<Value>(
  path: string,
  flags: number,
  work: (file: FileHandle) => Promise<Value>,
): Promise<Value> {
  const file = await open(path, flags, 0o600);
  try {
    return await work(file);
  } finally {
    await file.close();
  }
}

/** A new name is on the disk only once its folder is. Windows cannot sync a folder, and does without. */
async function syncFolder(path: string): Promise<void> {
  if (process.platform === 'win32') return;
  await withFile(path, constants.O_RDONLY, (folder) => folder.sync());
}

async function statOf(path: string): Promise<Stats | null> {
  try {
    return await stat(path);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

/** The system's name for a failure, such as ENOSPC; empty for none. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

/** Why a disk refused, in words that fit into a sentence. */
export function diskReason(error: unknown): string {
  const code = codeOf(error);
  const words: Readonly<Record<string, string>> = {
    ENOSPC: 'the disk is full',
    EDQUOT: 'the disk is full for this user',
    EFBIG: 'the file may not get longer',
    EROFS: 'the disk is read-only',
    EACCES: 'it may not be written or read by this user',
    EPERM: 'it may not be written or read by this user',
    EIO: 'the disk fails',
    EISDIR: 'it is a folder',
    ENOTDIR: 'a file stands where a folder should be',
    EEXIST: 'a file stands where a folder should be',
  };
  return words[code] ?? (code !== '' ? code : error instanceof Error ? error.message : String(error));
}
