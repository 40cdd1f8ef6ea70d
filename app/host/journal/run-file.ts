/*
 * The file of one run. Lines are appended, each naming the one before, and made safe separately. Before every write
 * the file is checked by its name: one that was removed, moved, replaced, cut short or written over while it was open
 * is written again as a whole.
 */

import { basename, dirname } from 'node:path';
import type { Disk, DiskFile, FileMark } from './disk.ts';
import { lineOf, type JournalEntry } from './journal-line.ts';
import { setTornAside, putAside } from './torn.ts';

/** A journal that was found on the disk and will be continued. */
export interface FoundFile {
  readonly path: string;
  /** The bytes of the lines that are used. */
  readonly bytes: Uint8Array;
  /** The checksum of the last of them. */
  readonly sum: string;
  /** The bytes after them, which must be set aside before anything is written; null for none. */
  readonly torn: Uint8Array | null;
}

/** Checks that this host still has the lock of the folder and may write there. */
export interface Guard {
  /** Rejects with the reason if it may not, or if that cannot be found out. */
  check(): Promise<void>;
  /** The same without waiting: throws. */
  checkNow(): void;
}

export interface RunFilePorts {
  readonly disk: Disk;
  readonly guard: Guard;
  /** Gets a sentence for the coach when the file had to be written again. */
  readonly mended: (sentence: string) => void;
}

type Named = Pick<FileMark, 'id' | 'length'>;

/** What has happened to a file while it was open. */
export type Standing = 'whole' | 'gone' | 'another' | 'shorter' | 'longer';

type Harm = Exclude<Standing, 'whole'> | 'written over';

/**
 * Compares the open file with what its name now stands for. `length`: how much has been written, in bytes. If the
 * system does not number files, only the length shows that a file has been replaced.
 */
export function standingOf(open: Named, named: Named | null, length: number): Standing {
  if (!named) return 'gone';
  if (open.id !== null && named.id !== null && open.id !== named.id) return 'another';
  if (named.length < length) return 'shorter';
  return named.length > length ? 'longer' : 'whole';
}

export class RunFile {
  readonly path: string;
  /** Whether its last line has been given. */
  closed = false;
  private readonly ports: RunFilePorts;
  private open: DiskFile | null = null;
  /** All that has been written. */
  private readonly parts: Uint8Array[] = [];
  private length = 0;
  private sum: string | null = null;
  /** How many of those bytes are known to be on the disk itself. */
  private safe = 0;
  private torn: Uint8Array | null = null;
  /** There may be bytes after `length` that must be overwritten. */
  private soiled = false;
  /** What is not safe must be written again: the disk failed to make it safe and may have dropped it. */
  private doubtful = false;
  /** What has happened to the file, until the coach has been told that it is mended. */
  private harm: Harm | null = null;
  /** Everything must be written into a new file before anything more is written. */
  private anew = false;
  /** False on disks where a file has one number by its name and another once it is open. */
  private numbersHold = true;
  /** The time of change that the system gave after our last write; any other is somebody else's. null if not known. */
  private ours: bigint | null = null;
  private turn: Promise<unknown> = Promise.resolve();

  constructor(ports: RunFilePorts, path: string) {
    this.ports = ports;
    this.path = path;
  }

  /** `shared`: the host that wrote it may still have it open. Then a new file is used, which that host cannot reach. */
  static found(ports: RunFilePorts, { path, bytes, sum, torn }: FoundFile, shared: boolean): RunFile {
    const file = new RunFile(ports, path);
    file.parts.push(bytes);
    file.length = file.safe = bytes.length;
    file.sum = sum;
    file.torn = torn;
    file.soiled = torn !== null;
    file.anew = shared;
    return file;
  }

  /** Resolves when the lines are in the file, where they outlive the process. Either all of them are or none. */
  write(entries: readonly JournalEntry[]): Promise<void> {
    return this.inTurn(async () => {
      const open = await this.ready();
      const { bytes, sum } = this.linesOf(entries);
      this.soiled = true;
      await open.write(bytes, this.length);
      this.took(bytes, sum);
    });
  }

  /** Resolves when everything written before the call is on the disk itself. */
  async sync(): Promise<void> {
    const isReady = this.open !== null && !this.doubtful;
    const open = isReady ? this.open! : await this.inTurn(() => this.allAgain());
    const upTo = this.length;
    try {
      await open.sync();
    } catch (error) {
      this.doubtful = true;
      throw error;
    }
    this.safe = Math.max(this.safe, upTo);
  }

  /** Writes a line and makes it safe before it returns; false if the file is not ready for that, or refuses. */
  writeNow(entry: JournalEntry): boolean {
    if (!this.open || this.soiled || this.doubtful) return false;
    const { bytes, sum } = this.linesOf([entry]);
    try {
      this.ports.guard.checkNow();
      this.soiled = true;
      this.open.writeNow(bytes, this.length);
    } catch {
      return false;
    }
    this.took(bytes, sum);
    return true;
  }

  close(): Promise<void> {
    return this.inTurn(() => this.letGo());
  }

  /** Writes again what the disk may have dropped. */
  private async allAgain(): Promise<DiskFile> {
    const open = await this.ready();
    if (this.doubtful) await open.write(this.bytes().subarray(this.safe), this.safe);
    this.doubtful = false;
    this.rememberChange(open);
    return open;
  }

  private rememberChange(open: DiskFile): void {
    try {
      this.ours = open.mark().changed;
    } catch {
      // The write is done. The file is read back before the next one, because it was changed after what is remembered.
    }
  }

  /** The open file, as the last write left it; if it is not, it is made so first. */
  private async ready(): Promise<DiskFile> {
    await this.ports.guard.check();
    if (!this.open) await this.openFile();
    await this.standUp(this.open!);
    await this.keepTorn();
    if (this.soiled) await this.open!.truncate(this.length);
    this.soiled = false;
    if (this.harm) this.ports.mended(mendedText(this.path, this.harm));
    this.harm = null;
    return this.open!;
  }

  private async openFile(): Promise<void> {
    const { disk } = this.ports;
    await disk.makeFolder(dirname(this.path));
    if (this.anew) {
      await this.keepTorn();
      await disk.replace(this.path, this.bytes());
      this.safe = this.length;
      this.soiled = this.doubtful = this.anew = false;
    }
    this.open = await disk.open(this.path);
    this.numbersHold = disk.mark(this.path)?.id === this.open.mark().id;
  }

  private async standUp(open: DiskFile): Promise<void> {
    const { disk } = this.ports;
    const harm = await this.harmOf(open.mark(), disk.mark(this.path));
    if (harm === null) return;
    this.harm = harm;
    if (harm === 'longer') {
      this.torn = (await disk.read(this.path)).subarray(this.length);
      this.soiled = true;
    } else {
      // Until it is done, nothing else may be written there.
      this.anew = true;
      if (harm === 'another' || harm === 'written over') await putAside(disk, [this.path]);
      await this.letGo();
      await this.openFile();
    }
  }

  private async harmOf(mark: FileMark, named: FileMark | null): Promise<Harm | null> {
    const standing = standingOf(this.numbersHold ? mark : { ...mark, id: null }, named, this.length);
    if (standing !== 'whole' && !(standing === 'longer' && this.soiled)) return standing;
    return mark.changed === this.ours || (await this.isAsWritten()) ? null : 'written over';
  }

  /** Whether the file still has what has been written, except for what the disk may have dropped. */
  private async isAsWritten(): Promise<boolean> {
    const length = this.doubtful ? this.safe : this.length;
    const there = await this.ports.disk.read(this.path);
    return Buffer.compare(there.subarray(0, length), this.bytes().subarray(0, length)) === 0;
  }

  private async keepTorn(): Promise<void> {
    if (this.torn) await setTornAside(this.ports.disk, this.path, this.torn);
    this.torn = null;
  }

  private async letGo(): Promise<void> {
    const { open } = this;
    this.open = null;
    await open?.close();
  }

  private linesOf(entries: readonly JournalEntry[]): { readonly bytes: Uint8Array; readonly sum: string | null } {
    let { sum } = this;
    const texts = entries.map((entry) => {
      const line = lineOf(entry, sum);
      sum = line.sum;
      return line.text;
    });
    return { bytes: Buffer.from(texts.join('')), sum };
  }

  private took(bytes: Uint8Array, sum: string | null): void {
    this.parts.push(bytes);
    this.length += bytes.length;
    this.sum = sum;
    this.soiled = false;
    if (this.open) this.rememberChange(this.open);
  }

  private bytes(): Uint8Array {
    return Buffer.concat(this.parts);
  }

  private inTurn<Value>(task: () => Promise<Value>): Promise<Value> {
    const result = this.turn.then(task);
    this.turn = result.catch(() => undefined);
    return result;
  }
}

function mendedText(path: string, harm: Harm): string {
  const what = {
    gone: 'was removed or moved away',
    another: 'was replaced by another file, which is kept beside it',
    shorter: 'was cut short',
    longer: 'was written to by another program, whose bytes are kept beside it',
    'written over': 'was written over by another program (what it wrote is kept beside it)',
  }[harm];
  return (
    `The record of this run (${basename(path)}) ${what} while the run was going: Lanecall has written it again in ` +
    `${dirname(path)}. Leave that folder alone while Lanecall is open.`
  );
}
