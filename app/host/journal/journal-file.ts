/*
 * The journal on the disk, one file for each run. Each line is written at once, so that it outlives the process.
 * Making lines safe from a power cut is a separate step, for all lines written by then. A line that the disk refuses
 * waits and is tried again until it is written.
 */

import { join } from 'node:path';
import type { Millis } from '../../core/units.ts';
import type { ClockInstant } from '../time/clock.ts';
import { diskReason, type Disk } from './disk.ts';
import type { AliveSign, Closing, Comeback, Journal, JournalLine, Opening, Writing } from './journal.ts';
import { JOURNAL_VERSION, type JournalEntry, type Stamp } from './journal-line.ts';
import { RunFile, type FoundFile, type Guard } from './run-file.ts';
import type { Timer, Timers } from '../time/timers.ts';

export interface JournalPorts {
  readonly disk: Disk;
  /** The folder of the journals; made with the first one. */
  readonly folder: string;
  /** The name of this start of the machine. */
  readonly boot: string;
  readonly timers: Timers;
  readonly guard: Guard;
  /** Gets a sentence for the coach about what has happened to the open file; null when another run is opened. */
  readonly tell: (sentence: string | null) => void;
}

/** In ms: how long after a refusal the disk is tried again. */
const RETRY: Millis = 1000;

interface Waiting {
  readonly file: RunFile;
  /** null if the file is only to be closed. */
  readonly entry: JournalEntry | null;
  /** Whether the file can be closed after this. */
  readonly last: boolean;
  readonly safe: () => void;
  readonly refused: (why: Error) => void;
  /** Called when the line is in the file, and `onSafe` when it is on the disk itself, however often it was refused. */
  readonly onFile: () => void;
  readonly onSafe: () => void;
}

type Listeners = Partial<Pick<Waiting, 'onFile' | 'onSafe'>>;

export class JournalFile implements Journal {
  private readonly ports: JournalPorts;
  private readonly listeners: (() => void)[] = [];
  private file: RunFile | null = null;
  private run: string | null = null;
  private backlog: Waiting[] = [];
  /** Lines written and not yet known to be on the disk itself. */
  private unsafe: Waiting[] = [];
  /** Leaves handed over that are not yet in a sign of life. */
  private handed: (readonly [lane: number, at: Millis])[] = [];
  private writing: Promise<void> | null = null;
  private syncing: Promise<void> | null = null;
  private retry: Timer | null = null;
  private behind = false;

  constructor(ports: JournalPorts) {
    this.ports = ports;
  }

  open(opening: Opening, replaced: Closing | null): Promise<void> {
    const { run, source, clockPhase, openedAtTimeOfDay } = opening;
    const former = this.file;
    this.run = run;
    this.handed = [];
    this.ports.tell(null);
    const file = new RunFile(this.filePorts(), join(this.ports.folder, fileName(opening.wallMs, run)));
    this.file = file;
    const { text, lanesText } = source;
    const stamp = this.stamp(opening.at ?? 0, opening);
    const fields = { run, text, lanesText, clockPhase, openedAtTimeOfDay };
    return this.queue(
      { file, entry: { say: 'opened', journal: JOURNAL_VERSION, ...fields, ...stamp }, last: false },
      // Only then is the run before closed: a kill in between must leave one of the two.
      { onSafe: () => former && this.finish(former, replaced) },
    );
  }

  /** Continues a file that was found. `shared`: the host that wrote it may still have it open. */
  takeUp(run: string, found: FoundFile, shared = false): void {
    this.run = run;
    this.file = RunFile.found(this.filePorts(), found, shared);
  }

  append({ id, by, at, fields, ...moment }: JournalLine): Writing {
    const stamp = this.stamp(at, moment);
    let onFile = (): void => undefined;
    const inFile = new Promise<void>((resolve) => (onFile = resolve));
    const who = by && { by: by.kind, from: { role: by.role, name: by.name, device: by.device } };
    const command = this.put({ say: 'command', id, ...who, command: fields, ...stamp }, { onFile });
    // Only a mark can follow the end. Then the end is written again, because it must be the last line.
    const end = this.file?.closed ? [this.put({ say: 'closed', why: 'done', ...stamp })] : [];
    return { inFile, safe: Promise.all([command, ...end]).then(() => undefined) };
  }

  alive({ run, at, leaves, ...moment }: AliveSign): void {
    if (run !== this.run || !this.file || this.file.closed) return;
    this.hand(leaves);
    // While the disk refuses or is slow, one waiting sign of life is enough: the next one carries its leaves too.
    if (this.behind || this.backlog.some(({ entry }) => entry?.say === 'alive')) return;
    this.put({ say: 'alive', leaves: this.handed.splice(0), ...this.stamp(at, moment) }).catch(() => undefined);
  }

  /** Writes a sign of life before it returns, if the disk is free and does not refuse. For a machine about to sleep. */
  signNow(sign: AliveSign): void {
    const { file } = this;
    if (sign.run !== this.run || !file || file.closed) return;
    if (this.writing) return this.alive(sign);
    const { at, leaves, ...moment } = sign;
    this.hand(leaves);
    const entry = { say: 'alive', leaves: [...this.handed], ...this.stamp(at, moment) } as const;
    if (file.writeNow(entry)) this.handed = [];
  }

  back({ at, by, ...moment }: Comeback): Promise<void> {
    return this.put({ say: 'back', by, ...this.stamp(at, moment) });
  }

  close(closing: Closing): Promise<void> {
    if (closing.run !== this.run || !this.file || this.file.closed) return Promise.resolve();
    this.file.closed = true;
    return this.put(this.closingEntry(closing));
  }

  onCaughtUp(listener: () => void): void {
    this.listeners.push(listener);
  }

  async letGo(): Promise<boolean> {
    await this.idle();
    if (this.backlog.length + this.unsafe.length > 0) return false;
    await this.end();
    return true;
  }

  /** Waits until all waiting lines are written or refused, then closes the file. */
  async end(): Promise<void> {
    await this.idle();
    if (this.retry) this.ports.timers.clear(this.retry);
    this.retry = null;
    await this.file?.close();
    this.file = null;
  }

  /** Waits for what is being written and made safe. */
  private async idle(): Promise<void> {
    let work: Promise<void> | null;
    while ((work = this.writing ?? this.syncing)) await work;
  }

  /** Adds one by one: after a long absence there can be more leaves than a call can take as arguments. */
  private hand(leaves: AliveSign['leaves']): void {
    for (const { lane, at } of leaves) this.handed.push([lane, at]);
  }

  /** Closes the file of the run before. `replaced`: its last line, if it has none yet. */
  private finish(former: RunFile, replaced: Closing | null): void {
    const entry = replaced && !former.closed ? this.closingEntry(replaced) : null;
    this.queue({ file: former, entry, last: true }).catch(() => undefined);
  }

  private closingEntry({ at, why, ...moment }: Closing): JournalEntry {
    return { say: 'closed', why, ...this.stamp(at, moment) };
  }

  private put(entry: JournalEntry, listeners: Listeners = {}): Promise<void> {
    const { file } = this;
    if (!file) return Promise.reject(new Error('no journal is open'));
    return this.queue({ file, entry, last: false }, listeners);
  }

  private queue(line: Pick<Waiting, 'file' | 'entry' | 'last'>, listeners: Listeners = {}): Promise<void> {
    const { onFile = nothing, onSafe = nothing } = listeners;
    return new Promise((safe, refused) => {
      this.backlog.push({ ...line, safe, refused, onFile, onSafe });
      this.startWriting();
    });
  }

  private startWriting(): void {
    if (this.backlog.length === 0) return;
    this.writing ??= this.writeBacklog().then((isDone) => {
      this.writing = null;
      if (isDone) this.startWriting();
    });
  }

  private startSyncing(): void {
    if (this.unsafe.length === 0) return;
    this.syncing ??= this.syncWritten().then((isDone) => {
      this.syncing = null;
      if (isDone) this.startSyncing();
    });
  }

  /** Writes the waiting lines; false if the disk refused. */
  private async writeBacklog(): Promise<boolean> {
    // Waits a turn, so that lines given together are written together.
    await Promise.resolve();
    while (this.backlog.length > 0) {
      const batch = ofFirstFile(this.backlog);
      try {
        await batch[0]!.file.write(batch.flatMap(({ entry }) => entry ?? []));
      } catch (error) {
        return this.refuse(error);
      }
      this.backlog = without(this.backlog, batch);
      for (const line of batch) this.unsafe.push(line);
      for (const { onFile } of batch) onFile();
      this.startSyncing();
    }
    return true;
  }

  /** Makes written lines safe, all of them in one sync at a time. Lines can be written meanwhile. False if the disk refused. */
  private async syncWritten(): Promise<boolean> {
    while (this.unsafe.length > 0) {
      const batch = ofFirstFile(this.unsafe);
      const { file } = batch[0]!;
      try {
        if (batch.some(isLasting)) await file.sync();
        if (batch.some(({ last }) => last)) await file.close();
      } catch (error) {
        return this.refuse(error);
      }
      this.unsafe = without(this.unsafe, batch);
      for (const { safe, onSafe } of batch) {
        safe();
        onSafe();
      }
    }
    if (this.behind && this.backlog.length === 0) {
      this.behind = false;
      for (const listener of this.listeners) listener();
    }
    return true;
  }

  /** Tells everyone who waits. Lines that must last are kept and tried again. */
  private refuse(error: unknown): false {
    const why = new Error(diskReason(error));
    for (const { refused } of [...this.unsafe, ...this.backlog]) refused(why);
    this.backlog = this.backlog.filter(isLasting);
    this.unsafe = this.unsafe.filter(isLasting);
    if (this.backlog.length + this.unsafe.length === 0) return false;
    this.behind = true;
    if (this.retry) this.ports.timers.clear(this.retry);
    this.retry = this.ports.timers.set(() => {
      this.retry = null;
      this.startWriting();
      this.startSyncing();
    }, RETRY);
    return false;
  }

  private filePorts() {
    const { disk, guard, tell } = this.ports;
    return { disk, guard, mended: tell };
  }

  private stamp(at: Millis, { monotonic: mono, uptime, wallMs: wall }: ClockInstant): Stamp {
    return { at, mono, uptime, wall, boot: this.ports.boot };
  }
}

/** Names sort by the time of opening (UTC): 2026-11-05T19-30-02Z-….jsonl. */
function fileName(wallMs: number, run: string): string {
  const time = new Date(wallMs).toISOString().slice(0, 19).replaceAll(':', '-');
  return `${time}Z-${run.replaceAll(/[^\w-]/g, '_').slice(0, 40)}.jsonl`;
}

/** The lines at the front that are for the same file. */
function ofFirstFile(lines: readonly Waiting[]): readonly Waiting[] {
  const other = lines.findIndex(({ file }) => file !== lines[0]!.file);
  return lines.slice(0, other < 0 ? undefined : other);
}

/** Compares by identity, because a refusal in the meantime may have removed some of the lines. */
function without(lines: readonly Waiting[], done: readonly Waiting[]): Waiting[] {
  const gone = new Set(done);
  return lines.filter((line) => !gone.has(line));
}

/** Whether a line must last. Nobody waits for signs of life, and they are dropped if they cannot be written. */
function isLasting({ entry }: Waiting): boolean {
  return entry?.say !== 'alive';
}

function nothing(): void {
  // Nobody waits for it.
}
