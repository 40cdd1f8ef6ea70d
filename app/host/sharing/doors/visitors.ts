/*
 * What has happened at the door, in a file of its own for 30 days: sharing on and off, who was let in, who was thrown
 * out, and who was refused. One line of JSON each. However many are refused, the file stays small: a line a second at
 * most, which counts those before it.
 */

import { join } from 'node:path';
import type { Role } from '../../../wire/sharing/joining.ts';
import { diskReason, type Disk, type DiskFile } from '../../journal/disk.ts';
import type { Guard } from '../../journal/run-file.ts';
import type { Clock } from '../../time/clock.ts';

export type Noted =
  | { readonly what: 'sharing on'; readonly address: string }
  | { readonly what: 'sharing off' }
  | { readonly what: 'let in' | 'thrown out'; readonly role: Role; readonly name: string; readonly from?: string }
  | { readonly what: 'refused'; readonly from: string; readonly why: string };

export interface VisitorsPorts {
  readonly disk: Disk;
  /** The data folder. */
  readonly folder: string;
  readonly guard: Guard;
  readonly clock: Clock;
  /** For the coach, as long as nothing can be noted; null when it can. */
  readonly tell: (sentence: string | null) => void;
}

const FILE = 'visitors.jsonl';

/** In ms. */
const DAY = 86_400_000;
const KEPT_FOR = 30 * DAY;
const REFUSALS_EVERY = 1000;

/** In bytes: with more than this, what is oldest goes at the start, and refusals are only counted until some is gone. */
const MOST_BYTES = 4 * 1024 * 1024;

export class Visitors {
  private readonly ports: VisitorsPorts;
  private readonly path: string;
  private turn: Promise<void>;
  private waiting: string[] = [];
  private length = 0;
  private refusedAt = -Infinity;
  private unlisted = 0;
  private readonly start: { readonly now: number; readonly wallMs: number };
  /** When each line since the start was noted, in ms of the host's clock, which nobody can set. */
  private readonly notedAt = new Map<string, number>();
  private prunedAt: number;

  /** Forgets what is older than 30 days, now and once a day. */
  constructor(ports: VisitorsPorts) {
    const { clock, folder } = ports;
    this.ports = ports;
    this.path = join(folder, FILE);
    this.start = { now: clock.now(), wallMs: clock.wall().epochMs };
    this.prunedAt = this.start.now;
    this.turn = this.trying(() => this.prune(MOST_BYTES));
  }

  note(noted: Noted): void {
    const { clock } = this.ports;
    const isRefusal = noted.what === 'refused';
    if (isRefusal && (clock.now() - this.refusedAt < REFUSALS_EVERY || this.length > MOST_BYTES)) {
      this.unlisted++;
      return;
    }
    if (isRefusal) this.refusedAt = clock.now();
    const at = new Date(clock.wall().epochMs).toISOString();
    const line = JSON.stringify({ at, ...noted, ...(this.unlisted > 0 ? { refusedBefore: this.unlisted } : {}) });
    this.unlisted = 0;
    this.notedAt.set(line, clock.now());
    this.waiting.push(`${line}\n`);
    if (this.waiting.length === 1) this.turn = this.turn.then(() => this.trying(() => this.write()));
  }

  /** Resolves when what was noted is on the disk, or refused by it. */
  written(): Promise<void> {
    return this.turn;
  }

  private async write(): Promise<void> {
    const { disk, folder, guard } = this.ports;
    const bytes = Buffer.from(this.waiting.splice(0).join(''));
    await guard.check();
    await disk.makeFolder(folder);
    const file = await disk.open(this.path);
    await this.append(file, bytes);
    if (this.ports.clock.now() - this.prunedAt > DAY) await this.prune(this.length);
  }

  private async append(file: DiskFile, bytes: Uint8Array): Promise<void> {
    try {
      const at = file.mark().length;
      await file.write(bytes, at);
      await file.sync();
      this.length = at + bytes.length;
    } finally {
      await file.close();
    }
  }

  /** most: how many bytes may stay. */
  private async prune(most: number): Promise<void> {
    const { disk, guard } = this.ports;
    if (!(await disk.exists(this.path))) return;
    const bytes = await disk.readEnd(this.path, most);
    const lines = Buffer.from(bytes).toString('utf8').split('\n');
    const isOld = this.oldness();
    const kept = lines.filter((line) => !isOld(line)).map((line) => `${line}\n`);
    const pruned = Buffer.from(kept.join(''));
    this.length = pruned.length;
    if (this.length !== disk.mark(this.path)?.length) {
      await guard.check();
      await disk.replace(this.path, pruned);
    }
    this.prunedAt = this.ports.clock.now();
    for (const line of this.notedAt.keys()) if (isOld(line)) this.notedAt.delete(line);
  }

  /**
   * Tells the lines that are older than 30 days by all that is known. The machine's clock may have been set since the
   * start: of an earlier line the time counts that makes it younger, of a later one it does not count at all.
   */
  private oldness(): (line: string) => boolean {
    const { clock } = this.ports;
    const now = clock.now();
    const wallMs = Math.min(clock.wall().epochMs, this.start.wallMs + now - this.start.now);
    return (line) => {
      const notedAt = this.notedAt.get(line);
      return notedAt === undefined ? timeOf(line) < wallMs - KEPT_FOR : now - notedAt > KEPT_FOR;
    };
  }

  private async trying(act: () => Promise<void>): Promise<void> {
    try {
      await act();
      this.ports.tell(null);
    } catch (error) {
      this.ports.tell(`Who is let in cannot be noted in ${this.path} (${diskReason(error)}): sharing goes on without.`);
    }
  }
}

/** In ms since 1970; before everything for what is no line of this file. */
function timeOf(line: string): number {
  try {
    const { at } = Object(JSON.parse(line)) as { readonly at?: unknown };
    return typeof at === 'string' ? Date.parse(at) || -Infinity : -Infinity;
  } catch {
    return -Infinity;
  }
}
