/*
 * The files of the data folder, as a port, so that tests can have a disk that is full, slow or read-only. Every call
 * rejects, or throws, with the system's reason if the disk refuses. Only ordinary files are opened: reading a pipe or
 * a device in place of a file might never end.
 */

import {
  closeSync,
  constants,
  fdatasyncSync,
  fstatSync,
  openSync,
  readFileSync,
  statSync,
  watch,
  writeSync,
  type BigIntStats,
  type Stats,
} from 'node:fs';
import { link, mkdir, open, readdir, rename, rm, stat, type FileHandle } from 'node:fs/promises';
import { dirname } from 'node:path';

export interface Disk {
  /** Makes a folder and those above it, if they do not exist, for this user alone. */
  makeFolder(path: string): Promise<void>;
  /** The names in a folder; none if it does not exist. */
  list(path: string): Promise<readonly string[]>;
  exists(path: string): Promise<boolean>;
  /**
   * The mark of the file with this name; null for none. It returns at once, without the thread pool: this is called
   * before every line, and on a busy machine a turn of the pool takes longer than the disk.
   */
  mark(path: string): FileMark | null;
  read(path: string): Promise<Uint8Array>;
  /** The same at once: a thousand small reads that each wait their turn take longer than the disk. Throws. */
  readNow(path: string): Uint8Array;
  /** The first `bytes` bytes of a file, or all of a shorter one. */
  readStart(path: string, bytes: number): Promise<Uint8Array>;
  /** The last `bytes` bytes of a file, or all of a shorter one. */
  readEnd(path: string, bytes: number): Promise<Uint8Array>;
  /** Opens a file for writing; makes it if it does not exist. */
  open(path: string): Promise<DiskFile>;
  /**
   * Replaces a whole file: after a crash there is either the old one or the new one. `check` is called at the last
   * moment; where it throws, the old one stays.
   */
  replace(path: string, bytes: Uint8Array, check?: () => void): Promise<void>;
  /** Makes a whole file: after a crash there is none or all of it. Rejects with EEXIST where the name is taken. */
  create(path: string, bytes: Uint8Array): Promise<void>;
  remove(path: string): Promise<void>;
  /**
   * Removes files one after the other; resolves when it is on the disk itself that all of them are gone. One that is not
   * there is gone, and a folder is no file.
   */
  removeAll(paths: readonly string[]): Promise<void>;
  /** What the system knows of a file; null for none. */
  facts(path: string): Promise<FileFacts | null>;
  /**
   * Calls with the name of what may have changed in a folder, null for anything in it; null if the system cannot tell of
   * changes.
   */
  watch(path: string, changed: (name: string | null) => void): DiskWatch | null;
  /** Renames files; resolves when all new names are on the disk itself. */
  move(moves: readonly Move[]): Promise<void>;
}

export interface Move {
  readonly from: string;
  readonly to: string;
}

/** Tells a file from another one that now has its name. */
export interface FileMark {
  /** null if the system does not say. */
  readonly id: string | null;
  /** In bytes. */
  readonly length: number;
  /** When it was last changed, in the system's units: only for comparing. */
  readonly changed: bigint;
}

export interface FileFacts extends FileMark {
  /** When its content was last changed, in ms since 1970. */
  readonly writtenAt: number;
}

export interface DiskWatch {
  close(): void;
}

export interface DiskFile {
  /** The mark of the open file, even if it was renamed; returns at once. */
  mark(): FileMark;
  /** Writes all of the bytes, from an offset in the file on. */
  write(bytes: Uint8Array, at: number): Promise<void>;
  /** The same; the bytes are on the disk itself when it returns. Throws if the disk refuses. For a machine about to sleep. */
  writeNow(bytes: Uint8Array, at: number): void;
  truncate(length: number): Promise<void>;
  /** Resolves once what has been written is on the disk itself. */
  sync(): Promise<void>;
  close(): Promise<void>;
}

/** The disk of this machine. */
export const systemDisk: Disk = {
  makeFolder: async (path) => void (await mkdir(path, { recursive: true, mode: 0o700 })),
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
  readNow: (path) => withFileNow(path, (file) => readFileSync(file)),
  readStart: (path, bytes) => readSome(path, bytes, false),
  readEnd: (path, bytes) => readSome(path, bytes, true),
  async open(path) {
    const isNew = (await statOf(path)) === null;
    const file = await openOrdinary(path, constants.O_RDWR | constants.O_CREAT);
    if (isNew) await syncFolder(dirname(path));
    return diskFile(file);
  },
  replace: (path, bytes, check) =>
    putWhole(path, bytes, async (fresh) => {
      check?.();
      await rename(fresh, path);
    }),
  create: (path, bytes) =>
    putWhole(path, bytes, async (fresh) => {
      try {
        await link(fresh, path);
      } catch (error) {
        // Some disks have no second names for a file.
        if (codeOf(error) === 'EEXIST' || (await statOf(path)) !== null) throw taken();
        return rename(fresh, path);
      }
      await rm(fresh);
    }),
  async remove(path) {
    await rm(path);
    await syncFolder(dirname(path));
  },
  async removeAll(paths) {
    try {
      for (const path of paths) await rm(path).catch(unlessNoFile);
    } finally {
      const folders = new Set(paths.map((path) => dirname(path)));
      for (const folder of folders) await syncFolder(folder).catch(unlessNoFile);
    }
  },
  async facts(path) {
    try {
      const stats = await stat(path, { bigint: true });
      return { ...markOf(stats), writtenAt: Number(stats.mtimeMs) };
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return null;
      throw error;
    }
  },
  watch(path, changed) {
    try {
      const watcher = watch(path, { persistent: false }, (_, name) => changed(name));
      // A folder that is removed or unplugged is noticed when it is read.
      watcher.on('error', () => changed(null));
      return watcher;
    } catch {
      return null;
    }
  },
  async move(moves) {
    for (const { from, to } of moves) await rename(from, to);
    for (const folder of new Set(moves.flatMap(({ from, to }) => [dirname(to), dirname(from)])))
      await syncFolder(folder);
  },
};

function unlessNoFile(error: unknown): void {
  if (!['ENOENT', 'ERR_FS_EISDIR'].includes(codeOf(error))) throw error;
}

/** Writes all of it beside the place, safe on the disk, before `name` gives it its name. */
async function putWhole(path: string, bytes: Uint8Array, name: (fresh: string) => Promise<void>): Promise<void> {
  const fresh = `${path}.new`;
  try {
    // Left by a crash, it may be another name of the file itself.
    await rm(fresh).catch(unlessNoFile);
    await withFile(fresh, constants.O_WRONLY | constants.O_CREAT | constants.O_TRUNC, async (file) => {
      await file.writeFile(bytes);
      await file.sync();
    });
    await name(fresh);
  } catch (error) {
    await rm(fresh).catch(() => undefined);
    throw error;
  }
  await syncFolder(dirname(path));
}

function taken(): Error {
  return Object.assign(new Error('EEXIST'), { code: 'EEXIST' });
}

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

function readSome(path: string, bytes: number, fromEnd: boolean): Promise<Uint8Array> {
  return withFile(path, constants.O_RDONLY, async (file) => {
    const { size } = await file.stat();
    const length = Math.min(size, bytes);
    const { buffer, bytesRead } = await file.read(Buffer.alloc(length), 0, length, fromEnd ? size - length : 0);
    return buffer.subarray(0, bytesRead);
  });
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

/** The same for reading at once; `work` gets the file and its length in bytes. */
export function withFileNow<Value>(path: string, work: (file: number, length: number) => Value): Value {
  const file = openSync(path, constants.O_RDONLY | AT_ONCE);
  try {
    const stats = fstatSync(file);
    if (!stats.isFile()) throw notOrdinary(stats.isDirectory());
    return work(file, stats.size);
  } finally {
    closeSync(file);
  }
}

/** Opens without waiting for the other end of a pipe. Windows has no such pipes among its files, nor this flag: none is 0. */
const AT_ONCE = constants.O_NONBLOCK;

async function openOrdinary(path: string, flags: number): Promise<FileHandle> {
  // Checked before opening, because opening some devices does something to them; checked again once open.
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

/** Our own code for a failure: the system itself opens anything. */
const NOT_ORDINARY = 'NOT_ORDINARY';

/** A new name is on the disk itself only once its folder is synced. Windows cannot sync a folder. */
async function syncFolder(path: string): Promise<void> {
  if (process.platform === 'win32') return;
  const folder = await open(path, constants.O_RDONLY);
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

/** On Windows a volume has one number by path and another by open file, and some disks do not number files. */
function markOf({ dev, ino, size, ctimeNs }: BigIntStats): FileMark {
  const id = process.platform === 'win32' ? `${ino}` : `${dev}:${ino}`;
  return { id: ino === 0n ? null : id, length: Number(size), changed: ctimeNs };
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

const WORDS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full for this user',
  EFBIG: 'the file cannot get any longer',
  EROFS: 'the disk is read-only',
  EACCES: 'this user may not read or write it',
  EPERM: 'this user may not read or write it',
  EIO: 'the disk is failing',
  ENXIO: 'the disk is not there any more',
  ENODEV: 'the disk is not there any more',
  ESTALE: 'the shared folder is not there any more',
  ETIMEDOUT: 'the disk does not answer',
  ENOENT: 'it does not exist any more',
  EISDIR: 'it is a folder',
  ENOTDIR: 'there is a file in place of a folder',
  EEXIST: 'there is a file in place of a folder',
  EBUSY: 'another program has it open',
  ELOOP: 'its links form a circle',
  ENAMETOOLONG: 'its name is too long',
  EMFILE: 'too many files are open on this machine',
  ENFILE: 'too many files are open on this machine',
  [NOT_ORDINARY]: 'it is not an ordinary file',
};

/** Why a disk refused, in words that fit into brackets in a sentence. */
export function diskReason(error: unknown): string {
  const code = codeOf(error);
  if (code === '') return error instanceof Error ? error.message : String(error);
  return WORDS[code] ?? `the system says ${code}`;
}
