/*
 * The files of the data folder, as a port, so that tests can have a disk that is full, slow or read-only.
 * Every call rejects, or throws, with the system's reason where the disk refuses. Only ordinary files are opened: a pipe
 * or a device that stands where a file should be would never let go of who reads it.
 */

import { constants, fdatasyncSync, fstatSync, statSync, writeSync, type BigIntStats } from 'node:fs';
import { mkdir, open, readdir, rename, rm, stat, type FileHandle } from 'node:fs/promises';
import { dirname } from 'node:path';

export interface Disk {
  /** Makes a folder and those above it; content with one that is there. */
  makeFolder(path: string): Promise<void>;
  /** The names in a folder; none where it is not there. */
  list(path: string): Promise<readonly string[]>;
  exists(path: string): Promise<boolean>;
  /**
   * What stands under a name; null for nothing. At once, as the lock beside it is read: before every line there
   * would be a turn of the threads that work on files, and on a busy machine each takes longer than the disk.
   */
  mark(path: string): FileMark | null;
  read(path: string): Promise<Uint8Array>;
  /** The last so many bytes of a file, or all of a shorter one. */
  readEnd(path: string, bytes: number): Promise<Uint8Array>;
  /** Opens a file for writing, and makes it where it is not there. */
  open(path: string): Promise<DiskFile>;
  /** Puts a whole file in place of what is there: after a crash there is the old one or the new one. */
  replace(path: string, bytes: Uint8Array): Promise<void>;
  /** Gives files other names: all are in their places on the disk when it resolves. */
  move(moves: readonly Move[]): Promise<void>;
}

export interface Move {
  readonly from: string;
  /** In the same folder. */
  readonly to: string;
}

/** What tells a file from another that has come to stand under its name. */
export interface FileMark {
  /** null where the system does not say. */
  readonly id: string | null;
  /** In bytes. */
  readonly length: number;
  /** When it was last changed, by the system's own count: for comparing only. */
  readonly changed: bigint;
}

export interface DiskFile {
  /** Of what is open, wherever its name has gone; at once. */
  mark(): FileMark;
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
  mark(path) {
    const stats = statSync(path, { bigint: true, throwIfNoEntry: false });
    return stats ? markOf(stats) : null;
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
    const file = await openOrdinary(path, constants.O_RDWR | constants.O_CREAT);
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
  async move(moves) {
    for (const { from, to } of moves) await rename(from, to);
    for (const folder of new Set(moves.map(({ to }) => dirname(to)))) await syncFolder(folder);
  },
};

function diskFile(file: FileHandle): DiskFile {
  return {
    mark: () => markOf(fstatSync(file.fd, { bigint: true })),
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
  const file = await openOrdinary(path, flags);
  try {
    return await work(file);
  } finally {
    await file.close();
  }
}

/** Without waiting for whoever should be at the other end of a pipe. Windows has no such pipes among its files. */
const AT_ONCE = process.platform === 'win32' ? 0 : constants.O_NONBLOCK;

async function openOrdinary(path: string, flags: number): Promise<FileHandle> {
  // Looked at first, since to open some devices is to do something with them; what is open is looked at again.
  const stats = await statOf(path);
  if (stats && !stats.isFile()) throw notOrdinary(stats.isDirectory());
  const file = await open(path, flags | AT_ONCE, 0o600);
  const opened = await file.stat();
  if (opened.isFile()) return file;
  await file.close();
  throw notOrdinary(opened.isDirectory());
}

function notOrdinary(isFolder: boolean): Error {
  const code = isFolder ? 'EISDIR' : NOT_ORDINARY;
  return Object.assign(new Error(code), { code });
}

/** Not a name of the system's: it opens whatever it is asked for. */
const NOT_ORDINARY = 'NOT_ORDINARY';

/** A new name is on the disk only once its folder is. Windows cannot sync a folder, and does without. */
async function syncFolder(path: string): Promise<void> {
  if (process.platform === 'win32') return;
  const folder = await open(path, constants.O_RDONLY);
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

/** Windows gives volumes other names by path than by what is open; some disks there give files no numbers. */
function markOf({ dev, ino, size, ctimeNs }: BigIntStats): FileMark {
  const id = process.platform === 'win32' ? `${ino}` : `${dev}:${ino}`;
  return { id: ino === 0n ? null : id, length: Number(size), changed: ctimeNs };
}

async function statOf(path: string): Promise<BigIntStats | null> {
  try {
    return await stat(path, { bigint: true });
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

/** The system's name for a failure, such as ENOSPC; empty for none. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

const WORDS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full for this user',
  EFBIG: 'the file may not get longer',
  EROFS: 'the disk is read-only',
  EACCES: 'it may not be written or read by this user',
  EPERM: 'it may not be written or read by this user',
  EIO: 'the disk fails',
  ENXIO: 'the disk is not there any more',
  ENODEV: 'the disk is not there any more',
  ESTALE: 'the shared folder is not there any more',
  ETIMEDOUT: 'the disk does not answer',
  ENOENT: 'it is not there any more',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a file stands where a folder should be',
  EEXIST: 'a file stands where a folder should be',
  EBUSY: 'another program has it open',
  ELOOP: 'its links lead in a circle',
  ENAMETOOLONG: 'its name is too long',
  EMFILE: 'too many files are open on this machine',
  ENFILE: 'too many files are open on this machine',
  [NOT_ORDINARY]: 'it is no ordinary file',
};

/** Why a disk refused, in words that fit into a sentence. */
export function diskReason(error: unknown): string {
  const code = codeOf(error);
  if (code === '') return error instanceof Error ? error.message : String(error);
  return WORDS[code] ?? `the system says ${code}`;
}
