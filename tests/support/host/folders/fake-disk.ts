/*
 * A disk in memory that a test can fill, lock, slow down and look into. What has been written and what
 * is safe from a power cut are told apart, as on a real one.
 */

import { basename, dirname } from 'node:path';
import type { Disk, DiskFile, DiskWatch, FileFacts, FileMark, Move } from '../../../../app/host/journal/disk.ts';

export class FakeDisk implements Disk {
  readonly files = new Map<string, Uint8Array>();
  /** What a power cut leaves of each. */
  readonly safe = new Map<string, Uint8Array>();
  readonly folders = new Set<string>();
  /** How often anything was made safe. */
  syncs = 0;
  /** How many files are open. */
  openFiles = 0;
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
  /** What every write waits for. */
  writesHeld: Promise<void> = Promise.resolve();
  /** Why every sync fails, by the system's name; null where it does not. */
  unsyncable: string | null = null;
  /** Whether files have numbers that tell them apart. */
  numbered = true;
  /** Called before each change that is made, in the order in which they are. */
  beforeChange: () => void = () => undefined;
  /** Of files that are put there from now on: when they were written, in ms since 1970. */
  wall = 0;
  private readonly watchers = new Set<{ readonly path: string; readonly changed: (name: string) => void }>();
  private readonly writtenAt = new WeakMap<Uint8Array, number>();
  private numbers = 0;
  private readonly changes = new WeakMap<Uint8Array, bigint>();
  private readonly ids = new Map<string, number>();

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
    await Promise.resolve();
    return this.readNow(path);
  }

  readNow(path: string): Uint8Array {
    const why = this.unreadable.get(path);
    if (why !== undefined) throw failure(why);
    const bytes = this.files.get(path);
    if (!bytes) throw failure('ENOENT');
    this.bytesRead += bytes.length;
    return bytes;
  }

  async readStart(path: string, bytes: number): Promise<Uint8Array> {
    return (await this.read(path)).subarray(0, bytes);
  }

  async readEnd(path: string, bytes: number): Promise<Uint8Array> {
    const all = await this.read(path);
    this.bytesRead -= Math.max(0, all.length - bytes);
    return all.subarray(Math.max(0, all.length - bytes));
  }

  mark(path: string): FileMark | null {
    const bytes = this.files.get(path);
    return bytes ? this.markOf(path, bytes) : null;
  }

  open(path: string): Promise<DiskFile> {
    return this.changing(() => {
      if (!this.files.has(path)) this.files.set(path, new Uint8Array());
      this.openFiles++;
      const id = this.idOf(path);
      let orphan = this.files.get(path)!;
      // What was removed or replaced is still there for whoever has it open, and for nobody else.
      const isNamed = (): boolean => this.files.has(path) && this.idOf(path) === id;
      const content = (): Uint8Array => (isNamed() ? this.files.get(path)! : orphan);
      const put = (bytes: Uint8Array): void => {
        orphan = bytes;
        if (isNamed()) this.files.set(path, bytes);
      };
      return {
        mark: () => ({ ...this.markOf(path, content()), id: this.numbered ? String(id) : null }),
        write: async (bytes, at) => {
          await this.writesHeld;
          await this.changing(() => this.write(content(), put, bytes, at));
        },
        writeNow: (bytes, at) => {
          if (this.refuses !== null) throw failure(this.refuses);
          this.write(content(), put, bytes, at);
          if (isNamed()) this.safe.set(path, content());
        },
        truncate: (length) => this.changing(() => put(resized(content(), length))),
        sync: async () => {
          const written = content();
          await this.held;
          if (this.unsyncable !== null) throw failure(this.unsyncable);
          await this.changing(() => void (isNamed() && this.safe.set(path, written)));
          this.syncs++;
        },
        close: () => Promise.resolve(void this.openFiles--),
      };
    });
  }

  async replace(path: string, bytes: Uint8Array, check?: () => void): Promise<void> {
    await this.writesHeld;
    await this.changing(() => undefined);
    if (bytes.length > this.room) throw failure('ENOSPC');
    check?.();
    const written = bytes.slice();
    this.put(path, written);
    this.safe.set(path, written);
  }

  async create(path: string, bytes: Uint8Array): Promise<void> {
    await this.replace(path, bytes, () => {
      if (this.files.has(path)) throw failure('EEXIST');
    });
  }

  async remove(path: string): Promise<void> {
    await this.changing(() => this.takeAway(path));
  }

  async removeAll(paths: readonly string[]): Promise<void> {
    for (const path of paths) if (this.files.has(path)) await this.remove(path);
  }

  facts(path: string): Promise<FileFacts | null> {
    const mark = this.mark(path);
    return Promise.resolve(mark && { ...mark, writtenAt: this.writtenAt.get(this.files.get(path)!) ?? 0 });
  }

  watch(path: string, changed: (name: string | null) => void): DiskWatch | null {
    const watcher = { path, changed };
    this.watchers.add(watcher);
    return { close: () => this.watchers.delete(watcher) };
  }

  move(moves: readonly Move[]): Promise<void> {
    return this.changing(() => {
      for (const { from, to } of moves) {
        for (const files of [this.files, this.safe]) {
          const bytes = files.get(from);
          files.delete(from);
          if (bytes) files.set(to, bytes);
        }
        this.ids.set(to, this.idOf(from));
        this.ids.delete(from);
        this.tell(from);
        this.tell(to);
      }
    });
  }

  /** Takes a file away, as somebody else may do while it is open. */
  takeAway(path: string): void {
    for (const files of [this.files, this.safe, this.ids]) files.delete(path);
    this.tell(path);
  }

  /** Puts another in its place. */
  put(path: string, bytes: Uint8Array): void {
    this.files.set(path, bytes);
    this.ids.set(path, ++this.numbers);
    this.writtenAt.set(bytes, this.wall);
    this.tell(path);
  }

  private tell(path: string): void {
    for (const watcher of this.watchers) if (watcher.path === dirname(path)) watcher.changed(basename(path));
  }

  private markOf(path: string, bytes: Uint8Array): FileMark {
    // Whoever changes a file puts other bytes in its place.
    if (!this.changes.has(bytes)) this.changes.set(bytes, BigInt(++this.numbers));
    return {
      id: this.numbered ? String(this.idOf(path)) : null,
      length: bytes.length,
      changed: this.changes.get(bytes)!,
    };
  }

  private idOf(path: string): number {
    if (!this.ids.has(path)) this.ids.set(path, ++this.numbers);
    return this.ids.get(path)!;
  }

  text(path: string): string {
    return new TextDecoder().decode(this.files.get(path));
  }

  private write(before: Uint8Array, put: (bytes: Uint8Array) => void, bytes: Uint8Array, at: number): void {
    const fits = Math.max(0, Math.min(bytes.length, this.room));
    const after = resized(before, Math.max(before.length, at + fits));
    after.set(bytes.subarray(0, fits), at);
    put(after);
    this.room -= fits;
    if (fits < bytes.length) throw failure('ENOSPC');
  }

  private async changing<Value>(change: () => Value): Promise<Value> {
    if (this.refuses !== null) throw failure(this.refuses);
    this.beforeChange();
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
