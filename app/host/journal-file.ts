/*
 * The journal on the disk: one file a run. Lines wait in a backlog and are written in order, many at once
 * where many wait. What the disk refuses stays in the backlog and is tried again until it is written; a
 * half-written line never stays in front of a whole one.
 */

import { join } from 'node:path';
import type { Millis } from '../core/units.ts';
import type { Moment } from './clock.ts';
import { diskReason, type Disk, type DiskFile } from './disk.ts';
import type { AliveSign, Closing, Comeback, Journal, JournalLine, Opening } from './journal.ts';
import { JOURNAL_VERSION, lineOf, type JournalEntry, type Stamp } from './journal-line.ts';
import type { Timer, Timers } from './timers.ts';
import { setTornAside } from './torn.ts';

export interface JournalPorts {
  readonly disk: Disk;
  /** Where journals are; made with the first. */
  readonly folder: string;
  /** Which start of the machine this is. */
  readonly boot: string;
  readonly timers: Timers;
}

/** A journal that was found on the disk and is to be gone on with. */
export interface FoundFile {
  readonly path: string;
  /** Of its undamaged part, in bytes. */
  readonly length: number;
  /** What stands behind that and must be set aside before anything is written; null for nothing. */
  readonly torn: Uint8Array | null;
}

/** In ms: so long after a refusal the disk is tried again. */
const RETRY: Millis = 1000;

interface RunFile {
  readonly path: string;
  open: DiskFile | null;
  length: number;
  torn: Uint8Array | null;
  /** Something may stand behind `length` that is to be overwritten. */
  soiled: boolean;
  closed: boolean;
}

interface Waiting {
  readonly file: RunFile;
  readonly text: string;
  /** Signs of life are not waited for, nor kept where they cannot be written. */
  readonly lasting: boolean;
  /** The file is not needed after this. */
  readonly last: boolean;
  readonly written: () => void;
  readonly refused: (why: Error) => void;
}

export class JournalFile implements Journal {
  private readonly ports: JournalPorts;
  private readonly listeners: (() => void)[] = [];
  private file: RunFile | null = null;
  private run: string | null = null;
  private backlog: Waiting[] = [];
  /** Leaves handed over that no sign of life has told of. */
  private handed: (readonly [lane: number, at: Millis])[] = [];
  private writing: Promise<void> | null = null;
  private retry: Timer | null = null;
  private behind = false;

  constructor(ports: JournalPorts) {
    this.ports = ports;
  }

  open(opening: Opening): Promise<void> {
    const { run, source, clockPhase, openedAtTimeOfDay } = opening;
    const former = this.file;
    if (former) this.queue({ file: former, text: '', lasting: true, last: true }).catch(() => undefined);
    this.run = run;
    this.handed = [];
    const path = join(this.ports.folder, fileName(opening.wallMs, run));
    this.file = { path, open: null, length: 0, torn: null, soiled: false, closed: false };
    const { text, lanesText } = source;
    return this.put({
      say: 'opened',
      journal: JOURNAL_VERSION,
      run,
      text,
      lanesText,
      clockPhase,
      openedAtTimeOfDay,
      ...this.stamp(0, opening),
    });
  }

  /** Makes a file that was found the one that is written to. */
  takeUp(run: string, { path, length, torn }: FoundFile): void {
    this.run = run;
    this.file = { path, open: null, length, torn, soiled: torn !== null, closed: false };
  }

  append({ id, at, fields, ...moment }: JournalLine): Promise<void> {
    const stamp = this.stamp(at, moment);
    const written = this.put({ say: 'command', id, command: fields, ...stamp });
    // Only a mark can come behind the end, and the end is what a journal ends with.
    const end = this.file?.closed ? [this.put({ say: 'closed', why: 'done', ...stamp })] : [];
    return Promise.all([written, ...end]).then(() => undefined);
  }

  alive({ run, at, leaves, ...moment }: AliveSign): void {
    if (run !== this.run || !this.file || this.file.closed) return;
    this.handed.push(...leaves.map(({ lane, at: time }) => [lane, time] as const));
    // Behind a disk that refuses or dawdles, one that waits is enough; the next has its leaves too.
    if (this.behind || this.backlog.some(({ lasting }) => !lasting)) return;
    this.put({ say: 'alive', leaves: this.handed.splice(0), ...this.stamp(at, moment) }).catch(() => undefined);
  }

  /** A sign of life that is on the disk when this returns, if the disk is free and willing; for a machine that is about to sleep. */
  signNow(sign: AliveSign): void {
    const { file } = this;
    if (sign.run !== this.run || !file || file.closed) return;
    if (!file.open || file.soiled || this.writing) return this.alive(sign);
    const { at, leaves, ...moment } = sign;
    this.handed.push(...leaves.map(({ lane, at: time }) => [lane, time] as const));
    const line = lineOf({ say: 'alive', leaves: this.handed.splice(0), ...this.stamp(at, moment) });
    const bytes = Buffer.from(line);
    file.soiled = true;
    try {
      file.open.writeNow(bytes, file.length);
    } catch {
      // A sign of life is not kept where it cannot be written.
      return;
    }
    file.length += bytes.length;
    file.soiled = false;
  }

  back({ at, by, ...moment }: Comeback): Promise<void> {
    return this.put({ say: 'back', by, ...this.stamp(at, moment) });
  }

  close({ run, at, why, ...moment }: Closing): Promise<void> {
    if (run !== this.run || !this.file || this.file.closed) return Promise.resolve();
    this.file.closed = true;
    return this.put({ say: 'closed', why, ...this.stamp(at, moment) });
  }

  onCaughtUp(listener: () => void): void {
    this.listeners.push(listener);
  }

  /** Waits until what is waiting is written or refused, and lets go of the file. */
  async end(): Promise<void> {
    await this.writing;
    if (this.retry) this.ports.timers.clear(this.retry);
    this.retry = null;
    await this.file?.open?.close();
    this.file = null;
  }

  private put(entry: JournalEntry): Promise<void> {
    const { file } = this;
    if (!file) return Promise.reject(new Error('no journal is open'));
    return this.queue({ file, text: lineOf(entry), lasting: entry.say !== 'alive', last: false });
  }

  private queue(line: Omit<Waiting, 'written' | 'refused'>): Promise<void> {
    return new Promise((written, refused) => {
      this.backlog.push({ ...line, written, refused });
      this.writing ??= this.writeBacklog().finally(() => (this.writing = null));
    });
  }

  private async writeBacklog(): Promise<void> {
    // Lines given in one go are written in one go.
    await Promise.resolve();
    while (this.backlog.length > 0) {
      const { file } = this.backlog[0]!;
      const other = this.backlog.findIndex((waiting) => waiting.file !== file);
      const batch = this.backlog.slice(0, other < 0 ? undefined : other);
      try {
        await this.write(file, batch);
      } catch (error) {
        return this.refuse(error);
      }
      this.backlog.splice(0, batch.length);
      for (const { written } of batch) written();
    }
    if (!this.behind) return;
    this.behind = false;
    for (const listener of this.listeners) listener();
  }

  private async write(file: RunFile, batch: readonly Waiting[]): Promise<void> {
    file.open ??= await this.openFile(file);
    if (file.soiled) await file.open.truncate(file.length);
    file.soiled = true;
    const bytes = Buffer.from(batch.map(({ text }) => text).join(''));
    await file.open.write(bytes, file.length);
    if (batch.some(({ lasting }) => lasting)) await file.open.sync();
    file.length += bytes.length;
    file.soiled = false;
    if (!batch.some(({ last }) => last)) return;
    await file.open.close();
    file.open = null;
  }

  private async openFile(file: RunFile): Promise<DiskFile> {
    const { disk, folder } = this.ports;
    await disk.makeFolder(folder);
    if (file.torn) {
      await setTornAside(disk, file.path, file.torn);
      file.torn = null;
    }
    return disk.open(file.path);
  }

  private refuse(error: unknown): void {
    const why = new Error(diskReason(error));
    const refused = this.backlog;
    this.backlog = refused.filter(({ lasting }) => lasting);
    for (const each of refused) each.refused(why);
    if (this.backlog.length === 0) return;
    this.behind = true;
    if (this.retry) this.ports.timers.clear(this.retry);
    this.retry = this.ports.timers.set(() => {
      this.retry = null;
      this.writing ??= this.writeBacklog().finally(() => (this.writing = null));
    }, RETRY);
  }

  private stamp(at: Millis, { monotonic: mono, uptime, wallMs: wall }: Moment): Stamp {
    return { at, mono, uptime, wall, boot: this.ports.boot };
  }
}

/** Names sort by the time of opening, UTC: 2026-11-05T19-30-02Z-….jsonl. */
function fileName(wallMs: number, run: string): string {
  const time = new Date(wallMs).toISOString().slice(0, 19).replaceAll(':', '-');
  return `${time}Z-${run.replaceAll(/[^\w-]/g, '_').slice(0, 40)}.jsonl`;
}
