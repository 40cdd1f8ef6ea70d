/*
 * A disk in memory that a test can fill, lock, slow down and look into. What has been written and what
 * is safe from a power cut are told apart, as on a real one.
 */

import { dirname } from 'node:path';
import type { Disk, DiskFile } from '../../app/host/disk.ts';

export class FakeDisk implements Disk {
  readonly files = new Map<string, Uint8Array>();
  /** What a power cut leaves of each. */
  readonly safe = new Map<string, Uint8Array>();
  readonly folders = new Set<string>();
  /** How often anything was made safe. */
  syncs = 0;
  /** Bytes that have been read. */
  bytesRead = 0;
  /** Bytes that still fit; a write that does not fit is written as far as it does, and fails. */
  room = Infinity;
  /** The system's name for why everything that writes is refused; null where it is not. */
  refuses: string | null = null;
  /** The same for reading one file. */
  readonly unreadable = new Map<string, string>();
  /** What every sync waits for. */
  held: Promise<void> = Promise.resolve();

  makeFolder(path: string): Promise<void> {
    return this.changing(() => void this.folders.add(path));
  }

  list(path: string): Promise<readonly string[]> {
    return Promise.resolve(
      [...this.files.keys()].filter((file) => dirname(file) === path).map((file) => file.slice(path.length + 1)),
    );
  }

  exists(path: string): Promise<boolean> {
    return Promise.resolve(this.files.has(path));
  }

  async read(path: string): Promise<Uint8Array> {
    const why = this.unreadable.get(path);
    if (why !== undefined) throw failure(why);
    const bytes = this.files.get(path);
    if (!bytes) throw failure('ENOENT');
    this.bytesRead += bytes.length;
    return bytes;
  }

  async readEnd(path: string, bytes: number): Promise<Uint8Array> {
    const all = await this.read(path);
    this.bytesRead -= Math.max(0, all.length - bytes);
    return all.subarray(Math.max(0, all.length - bytes));
  }

  open(path: string): Promise<DiskFile> {
    return this.changing(() => {
      if (!this.files.has(path)) this.files.set(path, new Uint8Array());
      return {
        write: (bytes, at) => this.changing(() => this.write(path, bytes, at)),
        writeNow: (bytes, at) => {
          if (this.refuses !== null) throw failure(this.refuses);
          this.write(path, bytes, at);
          this.safe.set(path, this.files.get(path)!);
        },
        truncate: (length) => this.changing(() => void this.files.set(path, resized(this.files.get(path)!, length))),
        sync: async () => {
          await this.held;
          await this.changing(() => void this.safe.set(path, this.files.get(path)!));
          this.syncs++;
        },
        close: () => Promise.resolve(),
      };
    });
  }

  async replace(path: string, bytes: Uint8Array): Promise<void> {
    await this.changing(() => undefined);
    if (bytes.length > this.room) throw failure('ENOSPC');
    this.files.set(path, bytes.slice());
    this.safe.set(path, bytes.slice());
  }

  move(from: string, to: string): Promise<void> {
    return this.changing(() => {
      for (const files of [this.files, this.safe]) {
        const bytes = files.get(from);
        files.delete(from);
        if (bytes) files.set(to, bytes);
      }
    });
  }

  text(path: string): string {
    return new TextDecoder().decode(this.files.get(path));
  }

  private write(path: string, bytes: Uint8Array, at: number): void {
    const before = this.files.get(path)!;
    const fits = Math.max(0, Math.min(bytes.length, this.room));
    const after = resized(before, Math.max(before.length, at + fits));
    after.set(bytes.subarray(0, fits), at);
    this.files.set(path, after);
    this.room -= fits;
    if (fits < bytes.length) throw failure('ENOSPC');
  }

  private async changing<Value>(change: () => Value): Promise<Value> {
    if (this.refuses !== null) throw failure(this.refuses);
    return change();
  }
}

function failure(code: string): Error {
  return Object.assign(new Error(code), { code });
}

function resized(bytes: Uint8Array, length: number): Uint8Array {
  const result = new Uint8Array(length);
  result.set(bytes.subarray(0, length));
  return result;
}
